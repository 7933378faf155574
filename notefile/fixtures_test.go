package notefile

import "strconv"

// musicXML puts the content of one measure into a whole score.
func musicXML(measure string) string {
	return `<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Guitar</part-name></score-part></part-list>
<part id="P1"><measure number="1">` + measure + `</measure></part></score-partwise>`
}

// quarterNotes writes notes of one quarter each, after attributes that say so.
func quarterNotes(divisions int, pitches ...string) string {
	text := "<attributes><divisions>" + strconv.Itoa(divisions) + "</divisions></attributes>"
	for _, p := range pitches {
		text += "<note><pitch><step>" + p[:1] + "</step><octave>" + p[1:] + "</octave></pitch><duration>" + strconv.Itoa(divisions) + "</duration></note>"
	}
	return text
}
