// Command measure sets single notes of our tones next to recorded ones and
// writes the table of doc/sound.md.
//
// For each note it measures how fast every partial decays, how the level falls
// in two stages, the spectral centroid over time, the attack time and the
// inharmonicity. A classifier then tries to tell our notes from recorded ones.
//
// The recorded notes are a reference only and are never shipped: run npm ci in
// testdata/guitars first. FluidR3 is played by fluidsynth. What is not
// installed is left out, with a remark.
//
//	go run ./sound/internal/measure [-o doc/sound.md] [-wav DIR]
package main

import (
	"bytes"
	"flag"
	"fmt"
	"log"
	"os"
)

func main() {
	log.SetFlags(0)
	out := flag.String("o", "", "write the tables to `FILE`; without it they are printed")
	folder := flag.String("guitars", "sound/internal/measure/testdata/guitars/node_modules", "where the recorded `sets` are installed")
	wav := flag.String("wav", "", "also write every note measured, as wav files, into `DIR`")
	flag.Parse()
	if err := run(*out, *folder, *wav); err != nil {
		log.Fatal("measure: ", err)
	}
}

func run(out, folder, wav string) error {
	sets, err := readSets(folder)
	if err != nil {
		return err
	}
	if wav != "" {
		if err := writeNotes(wav, sets); err != nil {
			return err
		}
	}
	var page bytes.Buffer
	writePage(&page, sets)
	if out == "" {
		_, err := os.Stdout.Write(page.Bytes())
		return err
	}
	if err := os.WriteFile(out, page.Bytes(), 0o644); err != nil {
		return fmt.Errorf("writing the tables: %w", err)
	}
	return nil
}
