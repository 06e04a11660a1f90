//go:build !linux

package whole_test

import "testing"

func smallDisk(t *testing.T) string {
	t.Helper()
	t.Skip("a small disk is made on Linux only")
	return ""
}

func readOnly(*testing.T, string) {}
