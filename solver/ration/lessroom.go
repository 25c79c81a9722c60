package ration

// LessRoomNote is the note of a plan that was made anew to fit its shelves.
const LessRoomNote = "made with less room than the shelves have, so that every pack finds a place"
