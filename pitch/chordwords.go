package pitch

import "strings"

// tensionWords maps a number and its sign to the degree as it is usually spelled:
// ♯4 is ♯11.
var tensionWords = []struct{ word, degree string }{
	{"b5", "b5"}, {"#5", "#5"}, {"b9", "b9"}, {"#9", "#9"}, {"#11", "#11"}, {"b13", "b13"},
	{"#4", "#11"}, {"b6", "b13"}, {"b2", "b9"},
}

// addWords maps the number after "add", in brackets or after a slash to a degree.
var addWords = []struct{ word, degree string }{
	{"13", "13"}, {"11", "11"}, {"9", "9"}, {"6", "6"}, {"4", "11"}, {"2", "9"},
}

// majorWords are the spellings of a major seventh.
var majorWords = []string{"major", "Major", "maj", "Maj", "MAJ", "ma", "Ma", "MA", "M", "Δ"}

// suspend reads what follows "sus": the degree that replaces the third, and the
// extension if there was none before ("Gsus13").
func (d *draft) suspend(tail string) (string, bool) {
	if d.isDim() || !d.drop(3) && d.extension != "11" {
		return tail, false
	}
	fourth, second, tail := cutSuspended(tail)
	if fourth {
		d.drop(11)
		d.degrees = append(d.degrees, Degree{Number: 4})
	}
	if second {
		if d.drop(9) && d.extension != "2" {
			return tail, false
		}
		d.degrees = append(d.degrees, Degree{Number: 2})
	}
	if d.quality == "" && d.extension == "" && !d.number(7) {
		for _, extension := range []string{"13", "9", "7"} {
			if next, found := strings.CutPrefix(tail, extension); found {
				if second && extension != "7" {
					return tail, false // it has the ninth already, as in "9sus2"
				}
				d.extension = extension
				d.degrees = append(d.degrees, wordDegrees(kindStart[extension])[3:]...)
				return next, true
			}
		}
	}
	return tail, true
}

// cutSuspended reads which degrees are suspended: the fourth if none is given,
// both in "sus24" or "sus2sus4".
func cutSuspended(tail string) (fourth, second bool, rest string) {
	for {
		next, _ := cutFold(tail, "sus")
		if !fourth && !second {
			next = tail
		}
		switch {
		case strings.HasPrefix(next, "4") && !fourth:
			fourth = true
		case strings.HasPrefix(next, "2") && !second:
			second = true
		default:
			return fourth || !second, second, tail
		}
		tail = next[1:]
	}
}

// addNumber reads the degree that "add" or a bracket adds.
func (d *draft) addNumber(tail string) (string, bool) {
	if next, ok := d.tension(tail); ok {
		return next, true
	}
	for _, add := range addWords {
		next, found := strings.CutPrefix(tail, add.word)
		if !found {
			continue
		}
		degree := mustDegree(add.degree)
		if degree.Number == 6 && d.number(7) {
			degree.Number = 13
		}
		return next, d.add(degree)
	}
	return tail, false
}

// omit reads the degree that is left out.
func (d *draft) omit(tail string) (string, bool) {
	if d.isDim() {
		return tail, false
	}
	for _, number := range []int{3, 5} {
		for _, word := range [][]string{3: {"3rd", "3"}, 5: {"5th", "5"}}[number] {
			if next, found := cutFold(tail, word); found {
				return next, d.drop(number)
			}
		}
	}
	return tail, false
}

// alter turns a dominant or a plain major symbol into the altered dominant.
func (d *draft) alter() bool {
	if d.quality != "" || d.extension != "7" && d.extension != "" || len(d.degrees) > 4 || !d.number(3) {
		return false
	}
	d.degrees = wordDegrees(alteredDegrees)
	return true
}

// alteredDegrees is the altered dominant, common practice.
const alteredDegrees = "1 3 b7 b9 #9 #11 b13"

// majorSeventh makes the seventh major: "(maj7)", "M9" after a minor triad, or an
// M after a dominant number ("G7M").
func (d *draft) majorSeventh(tail string) (string, bool) {
	seventh := Degree{Number: 7}
	if d.number(7) {
		if d.quality != "" || d.extension != "7" || !d.has(7, -1) || strings.TrimLeft(tail, "0123456789") != tail {
			return tail, false
		}
		d.drop(7)
		d.degrees = append(d.degrees, seventh)
		return tail, true
	}
	if d.number(6) {
		return tail, false
	}
	for _, extension := range []string{"13", "11", "9", "7", ""} {
		next, found := strings.CutPrefix(tail, extension)
		if !found {
			continue
		}
		d.degrees = append(d.degrees, seventh)
		kind := kindStart["maj"+extension]
		if d.quality == "min" && extension != "" {
			kind = kindStart["min"+extension]
		}
		for _, degree := range wordDegrees(kind) {
			if degree.Number > 7 && !d.add(degree) {
				return tail, false
			}
		}
		return next, true
	}
	return tail, false
}

// tension reads an altered degree: "b9", "#11", "-5", "+".
func (d *draft) tension(rest string) (string, bool) {
	plain := rest
	switch {
	case strings.HasPrefix(rest, "+"):
		plain = "#" + rest[1:]
	case strings.HasPrefix(rest, "-"):
		plain = "b" + rest[1:]
	}
	for _, t := range tensionWords {
		if tail, found := strings.CutPrefix(plain, t.word); found {
			return tail, d.put(mustDegree(t.degree))
		}
	}
	if rest == "+" || strings.HasPrefix(rest, "+)") || strings.HasPrefix(rest, "+,") {
		return rest[1:], d.put(Degree{Number: 5, Alter: 1})
	}
	return rest, false
}
