package main

import "syscall"

// ownGroup starts a program in a process group of its own, away from the
// console's Ctrl-C.
func ownGroup() *syscall.SysProcAttr {
	return &syscall.SysProcAttr{CreationFlags: syscall.CREATE_NEW_PROCESS_GROUP}
}
