//go:build !unix

package disk

const withoutWaiting = 0
