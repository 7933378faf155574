package main

import (
	"os"
	"path/filepath"

	"heddle/pitch"
)

// dataFolder is the folder for what a player keeps: the one asked for, or the
// system's place for the data of a person's programs. On all systems
// XDG_DATA_HOME says where that is, where it is set to an absolute path (XDG
// Base Directory Specification 0.8). Empty where there is no such place.
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

// checkData makes sure, before anything can be made that would be lost, that
// a folder that was asked for can be written to.
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
