//go:build race

package scan

// slower is by how much the race detector stretches the time that a test allows.
const slower = 30
