package whole_test

import (
	"syscall"
	"testing"
)

// smallDisk is a disk of four megabytes. To make one is the superuser's right.
func smallDisk(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := syscall.Mount("notchbook-test", dir, "tmpfs", 0, "size=4m"); err != nil {
		t.Skip("no small disk can be made here: ", err)
	}
	t.Cleanup(func() { syscall.Unmount(dir, syscall.MNT_DETACH) })
	return dir
}

func readOnly(t *testing.T, dir string) {
	t.Helper()
	if err := syscall.Mount("notchbook-test", dir, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, "size=4m"); err != nil {
		t.Skip("the disk is not made read-only: ", err)
	}
}
