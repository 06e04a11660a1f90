package lang

import _ "embed"

// Manual is the whole of the notation, in Markdown; its examples are run as tests.
//
//go:embed NOTATION.md
var Manual string
