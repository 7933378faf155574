package surface_test

import (
	"fmt"
	"strings"

	"heddle/score/surface"
)

func Example() {
	drawing := surface.Drawing{Width: 20, Height: 10, Items: []surface.Item{
		surface.Group{Class: "note scale0", Notes: []int{4}, Label: "the fifth note", Items: []surface.Item{
			surface.Disc{Center: surface.Pt(5, 5), Radius: 2, Fill: surface.Scale(0)},
		}},
	}}
	var page strings.Builder
	if err := surface.WritePageSVG(&page, drawing); err != nil {
		panic(err)
	}
	fmt.Print(page.String())
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" class="score" role="img" width="20mm" height="10mm" viewBox="0 0 20 10" fill="currentColor" font-family="Heddle Sans,Helvetica,Arial,sans-serif">
	// <g class="note scale0" data-note="4">
	// <title>the fifth note</title>
	// <circle cx="5" cy="5" r="2" class="s0"/>
	// </g>
	// </svg>
}
