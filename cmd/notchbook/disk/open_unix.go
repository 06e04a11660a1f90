//go:build unix

package disk

import "syscall"

// withoutWaiting keeps the opening of a pipe from waiting for its other end.
const withoutWaiting = syscall.O_NONBLOCK
