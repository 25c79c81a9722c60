// Shows the progress of a search live, and takes a file that is dropped on the page.
// Every page works without this.
"use strict";

const search = document.getElementById("search");
if (search) {
  const line = document.getElementById("search-line");
  const events = new EventSource("/progress");
  events.onmessage = (event) => {
    const state = JSON.parse(event.data);
    if (String(state.Version) !== search.dataset.version || state.Problem) {
      events.close();
      location.reload(); // the browser keeps the place on the page
    } else if (!state.Running) {
      events.close();
      if (!state.Line) return search.remove();
      line.textContent = state.Line + " The search has ended.";
      search.querySelector("form").remove();
    } else if (line.textContent !== search.dataset.before + state.Line) {
      line.textContent = search.dataset.before + state.Line;
    }
  };
}

for (const form of document.querySelectorAll("form[data-drop]")) {
  const field = form.elements[form.dataset.drop];
  const mark = (on) => form.classList.toggle("dropping", on);
  document.addEventListener("dragover", (event) => { event.preventDefault(); mark(true); });
  document.addEventListener("dragleave", () => mark(false));
  document.addEventListener("drop", (event) => {
    event.preventDefault();
    mark(false);
    if (event.dataTransfer.files.length !== 1) return;
    field.files = event.dataTransfer.files;
    const button = form.querySelector("button[value=file]") || form.querySelector("button");
    form.requestSubmit(button);
  });
}
