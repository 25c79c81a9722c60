// Package ration is what is asked and answered: a request, the plan that
// answers it, their JSON form, the words of a status and the errors that are
// not about one cell of a file. It works nothing out and knows no model.
package ration
