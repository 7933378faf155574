package main

import (
	"os"
	"path/filepath"

	"heddle/pitch"
)

// dataFolder returns the folder for what a player keeps: the one asked for, or
// heddle's own in the system's folder for application data. On every system
// XDG_DATA_HOME overrides that, if it is an absolute path (XDG Base Directory
// Specification 0.8). It is empty if there is no such folder.
func dataFolder(asked string, env func(name string) string, system string) string {
	if asked != "" {
		return asked
	}
	if xdg := env("XDG_DATA_HOME"); filepath.IsAbs(xdg) {
		return filepath.Join(xdg, "heddle")
	}
	home, below := env("HOME"), filepath.Join(".local", "share", "heddle")
	switch system {
	case "windows":
		home, below = env("LocalAppData"), "heddle"
	case "darwin":
		below = filepath.Join("Library", "Application Support", "heddle")
	}
	if !filepath.IsAbs(home) {
		return ""
	}
	return filepath.Join(home, below)
}

// checkData checks that the folder asked for can be written to, before anything
// is made that would be lost.
func checkData(dir string) error {
	if dir == "" {
		return nil
	}
	err := os.MkdirAll(dir, 0o700)
	if err == nil {
		var probe *os.File
		if probe, err = os.CreateTemp(dir, ".heddle-*"); err == nil {
			probe.Close()
			err = os.Remove(probe.Name())
		}
	}
	if err != nil {
		return &pitch.InputError{What: "data", Value: dir, Want: "a folder that can be written to"}
	}
	return nil
}
