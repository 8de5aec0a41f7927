// One of 25 ideas in a folder.
