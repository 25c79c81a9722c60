package ration

const LessRoomNote = "made with less room than the shelves have, so that every pack finds a place"
