package notefile

import "heddle/line"

// beam joins the flagged notes of each beat. Beams above the first also break
// between tuplets, so that a beat of six in two threes is read as such, and no
// beam begins inside a tuplet and ends outside it, or the other way round.
func beam(symbols []symbol, at []line.Beat) {
	for i := 0; i < len(symbols); {
		group := symbols[i : i+max(1, beamGroup(symbols[i:], at))]
		cut := len(group)
		if end := tupletRest(group); end > 0 {
			cut = end
		} else if start := tupletStart(group); start > 0 {
			cut = start
		}
		if cut > 1 {
			beamLevels(group[:cut])
		}
		i += cut
	}
}

// beamGroup returns how many symbols from the first on could share one beam:
// notes with flags in one beat, unbroken by rests.
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

// tupletRest returns how many symbols at the head of a group belong to a
// tuplet that began before it, or 0 if that tuplet lasts as long as the group.
func tupletRest(group []symbol) int {
	if group[0].Actual == 0 || group[0].TupletOpens {
		return 0
	}
	for i, s := range group {
		if s.TupletCloses {
			return i + 1
		}
	}
	return 0
}

// tupletStart returns where in a group a tuplet begins that ends after it, or
// 0 if there is none or it begins with the group.
func tupletStart(group []symbol) int {
	if last := group[len(group)-1]; last.Actual == 0 || last.TupletCloses {
		return 0
	}
	for i := len(group) - 1; i >= 0; i-- {
		if group[i].TupletOpens {
			return i
		}
	}
	return 0
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
