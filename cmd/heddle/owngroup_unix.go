//go:build unix

package main

import "syscall"

// ownGroup starts a program in a process group of its own, away from the
// terminal's signals.
func ownGroup() *syscall.SysProcAttr { return &syscall.SysProcAttr{Setpgid: true} }
