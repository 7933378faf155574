package notefile

import "strconv"

// musicXML puts the content of one measure into a whole score.
func musicXML(measure string) string {
	return `<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Guitar</part-name></score-part></part-list>
<part id="P1"><measure number="1">` + measure + `</measure></part></score-partwise>`
}

func itoa(n int) string { return strconv.Itoa(n) }
