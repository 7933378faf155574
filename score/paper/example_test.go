package paper_test

import (
	"bytes"
	"fmt"

	"heddle/exercise"
	"heddle/score/paper"
	"heddle/score/surface"
)

func Example() {
	spec, err := exercise.ParseText("home: G minor pentatonic\nsuperimpose: semitone up\ngroups: 3,3\nfret: 10\n")
	if err != nil {
		fmt.Println(err)
		return
	}
	ex, err := exercise.Build(spec)
	if err != nil {
		fmt.Println(err)
		return
	}
	pages, err := paper.Pages(ex, paper.Options{Size: paper.A4, Title: "Out and back"})
	if err != nil {
		fmt.Println(err)
		return
	}
	var file bytes.Buffer
	if err := surface.WritePDF(&file, pages); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d page of %g by %g mm: %s\n", len(pages), pages[0].Width, pages[0].Height, file.Bytes()[:8])
	// Output: 1 page of 210 by 297 mm: %PDF-1.7
}
