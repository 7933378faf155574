package notefile

import "heddle/line"

// beam joins the flagged notes of each beat. Beams above the first also break
// between tuplets, so that a beat of six in two threes is read as such.
func beam(symbols []symbol, at []line.Beat) {
	for i := 0; i < len(symbols); {
		group := beamGroup(symbols[i:], at)
		if group > 1 {
			beamLevels(symbols[i : i+group])
		}
		i += max(group, 1)
	}
}

// beamGroup returns how many symbols from the first on share one beam: notes
// with flags in one beat, unbroken by rests.
func beamGroup(symbols []symbol, at []line.Beat) int {
	end := at[len(at)-1]
	for i := len(at) - 1; i >= 0 && at[i] > symbols[0].Start; i-- {
		end = at[i]
	}
	n := 0
	for n < len(symbols) && symbols[n].Note != rest && symbols[n].End <= end && flags(symbols[n].Type) > 0 {
		n++
	}
	return n
}

// beamLevels writes the beams of one group, level by level; a note alone at
// its level gets a hook towards its neighbour.
func beamLevels(group []symbol) {
	for i := range group {
		group[i].Beams = make([]string, flags(group[i].Type))
		for level := range group[i].Beams {
			before := i > 0 && flags(group[i-1].Type) > level && (level == 0 || !group[i].TupletOpens && !group[i-1].TupletCloses)
			after := i+1 < len(group) && flags(group[i+1].Type) > level && (level == 0 || !group[i].TupletCloses && !group[i+1].TupletOpens)
			group[i].Beams[level] = beamValue(before, after, i == 0 || group[i].TupletOpens)
		}
	}
}

// beamValue returns MusicXML's word for a beam that comes from the note before
// or goes to the one after.
func beamValue(before, after, first bool) string {
	switch {
	case before && after:
		return "continue"
	case before:
		return "end"
	case after:
		return "begin"
	case first:
		return "forward hook"
	}
	return "backward hook"
}
