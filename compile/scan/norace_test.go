//go:build !race

package scan

const slower = 1
