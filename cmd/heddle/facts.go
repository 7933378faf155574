package main

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"heddle/exercise"
	"heddle/line"
	"heddle/pitch"
)

// againstText lists what the notes of each scale are to the chord they first
// sound over, and how rough they are.
func againstText(ex *exercise.Exercise) string {
	var b strings.Builder
	for i, s := range ex.Scales {
		chord := ""
		var rows []string
		seen := make(map[pitch.Name]bool)
		for _, n := range ex.Notes {
			if n.Scale != i || seen[n.Pitch.Name] {
				continue
			}
			seen[n.Pitch.Name] = true
			chord = ex.ChordAt(n.Start).Display(ex.Naming)
			rows = append(rows, fmt.Sprintf("  %s %s %s, roughness %.2f", pad(ex.Naming.Name(n.Pitch.Name), 4), pad(n.Degree.Symbol(), 4), n.Function, n.Roughness))
		}
		if len(rows) > 0 {
			b.WriteString(ex.Naming.Scale(s.Scale) + " against " + chord + ":\n" + strings.Join(rows, "\n") + "\n")
		}
	}
	return b.String() + roughnessLegend
}

const roughnessLegend = `Roughness is the dissonance that the note adds to the chord as it is voiced, by
the model of Plomp and Levelt (1965) and Sethares (1993); a bare semitone is 1.
`

func togetherText(ex *exercise.Exercise) string {
	head := "Together: "
	if len(ex.Scales) == 1 {
		head = "The scale: "
	}
	return head + collectionText(ex.Collection, ex.Naming)
}

// collectionText describes a collection, as `heddle name` prints it.
func collectionText(c pitch.Collection, naming pitch.Naming) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s (%s)\n", naming.Names(c.Notes), pitch.Count(len(c.Notes), "note"))
	fmt.Fprintf(&b, "  set class      %s, prime form %s", c.Forte, pitch.Digits(c.PrimeForm))
	if pitch.Digits(c.PrimeForm) != pitch.Digits(c.PrimeFormRahn) {
		fmt.Fprintf(&b, " by Forte, %s by Rahn", pitch.Digits(c.PrimeFormRahn))
	}
	fmt.Fprintf(&b, "\n  intervals      <%s>\n", pitch.Digits(c.IntervalVector[:]))
	fmt.Fprintf(&b, "  transpositions %d", c.Transpositions)
	if c.Messiaen > 0 {
		fmt.Fprintf(&b, ", Messiaen's mode %d of limited transposition", c.Messiaen)
	}
	fmt.Fprintf(&b, "\n  known as       %s\n", wrapUnder(knownAs(c, naming), 17))
	missing := "nothing"
	if len(c.Missing) > 0 {
		missing = naming.List(c.Missing)
	}
	fmt.Fprintf(&b, "  missing        %s\n", missing)
	return b.String()
}

func knownAs(c pitch.Collection, naming pitch.Naming) string {
	if len(c.Names) == 0 {
		return "nothing with a name of its own"
	}
	return strings.Join(c.KnownAs(naming), "; ")
}

// wrapUnder wraps text and indents all lines but the first.
func wrapUnder(text string, indent int) string {
	wrapped := strings.TrimSuffix(wrap(text, textWidth-indent), "\n")
	return strings.ReplaceAll(wrapped, "\n", "\n"+strings.Repeat(" ", indent))
}

// wovenText says which scales a given line is woven from.
func wovenText(ex *exercise.Exercise) string {
	var b strings.Builder
	for i, r := range ex.Readings {
		head := "Heard in: "
		if i > 0 {
			head = "Or in: "
		}
		parts := make([]string, len(r.Segments))
		for j, s := range r.Segments {
			parts[j] = fmt.Sprintf("%s %s (notes %d to %d)", ex.Naming.Name(s.Scale.Root), s.Scale.Type.Name, s.From, s.To)
		}
		b.WriteString(head + wrapUnder(strings.Join(parts, ", "), 2) + "\n")
		if p := r.Pattern; p != nil {
			fmt.Fprintf(&b, "Pattern: groups %s, %s, following the %s note, %s, notes %d to %d.\n", line.FormatGroups(p.Groups), p.Order, p.Follow, p.Direction, p.From, p.To)
		}
	}
	return b.String()
}

// cycleText says when group and bar line meet again.
func cycleText(ex *exercise.Exercise) string {
	if ex.Given || ex.Cycle.Notes == 0 {
		return ""
	}
	return fmt.Sprintf("Cycle: group and bar line meet again after %s, %s.\n", pitch.Count(ex.Cycle.Notes, "note"), pitch.Count(ex.Cycle.Bars, "bar"))
}

// landingText lists the endings, best first, and says where those land that do not
// land with the first.
func landingText(ex *exercise.Exercise) string {
	if len(ex.Endings) == 0 {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Landing on %s:\n", ex.BarBeat(ex.Endings[0].At))
	for i, e := range ex.Endings {
		names := make([]string, len(e.Notes))
		for j, n := range e.Notes {
			names[j] = ex.Naming.Pitch(n.Pitch)
		}
		mark, elsewhere := " ", ""
		if i+1 == ex.Spec.Ending {
			mark = "→"
		}
		if e.At != ex.Endings[0].At {
			elsewhere = ", on " + ex.BarBeat(e.At)
		}
		fmt.Fprintf(&b, "%s %2d  %s  %s, to the %s%s\n", mark, i+1, pad(strings.Join(names, " "), 20), e.Kind, pitch.Signs(e.Target), elsewhere)
	}
	return b.String()
}

// handText sums up what the hands do.
func handText(ex *exercise.Exercise) string {
	return fmt.Sprintf("Hands: the fretting hand moves %.0f mm in all and opens to %.0f mm; %d string crossings.\n",
		ex.Hand.TravelMM, ex.Hand.WidestMM, ex.Hand.Crossings)
}

func pad(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-utf8.RuneCountInString(s)))
}
