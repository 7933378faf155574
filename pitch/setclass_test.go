package pitch

import (
	"math/bits"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// allClasses enumerates one mask for each set class, by Forte number.
func allClasses(t *testing.T) map[string]mask {
	t.Helper()
	byNumber := map[string]mask{}
	for m, c := range setClasses() {
		if other, ok := byNumber[c.forte]; ok && other != c.prime {
			t.Fatalf("%012b and %012b are both %s", other, m, c.forte)
		}
		if c.forte == "" {
			t.Fatalf("%012b has no Forte number", m)
		}
		byNumber[c.forte] = c.prime
	}
	return byNumber
}

// The counts are those of Forte 1973 for three to nine notes, and follow from
// enumeration for the rest.
func TestEverySetHasItsOwnClass(t *testing.T) {
	counts := map[int]int{}
	for _, prime := range allClasses(t) {
		counts[prime.size()]++
	}
	want := map[int]int{0: 1, 1: 1, 2: 6, 3: 12, 4: 29, 5: 38, 6: 50, 7: 38, 8: 29, 9: 12, 10: 6, 11: 1, 12: 1}
	for size, count := range want {
		if counts[size] != count {
			t.Errorf("%d classes of %d notes, want %d", counts[size], size, count)
		}
	}
}

func TestTheTableHoldsPrimeForms(t *testing.T) {
	for _, row := range forteRows {
		if m := primeMask(row.prime); setClasses()[m].prime != m {
			t.Errorf("%s: %s is not a prime form", row.number, row.prime)
		}
	}
}

// Forte orders classes of one size by falling interval vector. Of two with the
// same vector (Z) the one with the smaller span, then the one packed further
// left, comes first; the others follow after all the rest in the same order.
// His one departure is 6-Z28 before 6-Z49.
func TestClassesStandInFortesOrder(t *testing.T) {
	classes := allClasses(t)
	for size, count := range map[int]int{3: 12, 4: 29, 5: 38, 6: 50, 7: 38, 8: 29, 9: 12} {
		var inOrder []mask
		for _, prime := range classes {
			if prime.size() == size {
				inOrder = append(inOrder, prime)
			}
		}
		if len(inOrder) != count {
			t.Fatalf("%d classes of %d notes", len(inOrder), size)
		}
		slices.SortFunc(inOrder, func(a, b mask) int {
			va, vb := intervalVector(a), intervalVector(b)
			if c := slices.Compare(vb[:], va[:]); c != 0 {
				return c
			}
			return compareZ(a, b)
		})
		first, later := []mask(nil), []mask(nil)
		for i, m := range inOrder {
			if i > 0 && intervalVector(m) == intervalVector(inOrder[i-1]) {
				later = append(later, m)
			} else {
				first = append(first, m)
			}
		}
		for i, m := range append(first, later...) {
			number := strings.ReplaceAll(setClasses()[m].forte, "Z", "")
			if want := strconv.Itoa(size) + "-" + strconv.Itoa(i+1); number != want {
				t.Errorf("%v is %s, but stands where %s does", m.classes(), number, want)
			}
		}
	}
}

// compareZ orders two classes with the same interval vector. Classes of more
// than six notes stand in the order of their complements.
func compareZ(a, b mask) int {
	if a.size() > 6 {
		a, b = primeForm(chromaticMask&^a, packedLeft), primeForm(chromaticMask&^b, packedLeft)
	}
	z28, z49 := primeMask("013569"), primeMask("013479")
	if c := bits.Len16(uint16(a)) - bits.Len16(uint16(b)); c != 0 {
		return c
	}
	if packedLeft(a, b) == (min(a, b) == min(z28, z49) && max(a, b) == max(z28, z49)) {
		return 1
	}
	return -1
}

func TestZMarksClassesThatShareTheirVector(t *testing.T) {
	sharing := map[[6]int]int{}
	classes := allClasses(t)
	for _, prime := range classes {
		if prime.size() > 2 && prime.size() < 10 {
			sharing[intervalVector(prime)]++
		}
	}
	for number, prime := range classes {
		if z := strings.Contains(number, "Z"); z != (sharing[intervalVector(prime)] > 1) {
			t.Errorf("%s: marked Z: %v; %d classes share its vector", number, z, sharing[intervalVector(prime)])
		}
	}
}

// Source: Rahn, Basic Atonal Theory (1980); Forte 1973. The two differ in
// exactly these.
func TestForteAndRahnDifferInSixClasses(t *testing.T) {
	want := map[string][2]string{
		"5-20":  {"01378", "01568"},
		"6-Z29": {"013689", "023679"},
		"6-31":  {"013589", "014579"},
		"7-Z18": {"0123589", "0145679"},
		"7-20":  {"0124789", "0125679"},
		"8-26":  {"0124579t", "0134578t"},
	}
	for number, prime := range allClasses(t) {
		rahn := setClasses()[prime].rahn
		forms, differs := want[number]
		if !differs {
			forms[1] = digitsOf(prime)
			forms[0] = forms[1]
		}
		if digitsOf(prime) != forms[0] || digitsOf(rahn) != forms[1] {
			t.Errorf("%s is %s by Forte and %s by Rahn, want %s and %s", number, digitsOf(prime), digitsOf(rahn), forms[0], forms[1])
		}
	}
}

func digitsOf(m mask) string {
	var s strings.Builder
	for _, class := range m.classes() {
		s.WriteByte("0123456789te"[class])
	}
	return s.String()
}

// Source: Messiaen 1944 for how often each mode can be transposed.
func TestOnlyLimitedSetsAreMessiaenModes(t *testing.T) {
	modes := map[int]int{}
	for m, c := range setClasses() {
		if c.messiaen > 0 {
			modes[c.messiaen]++
		}
		if c.messiaen > 0 && c.transpositions == 12 {
			t.Errorf("%012b is mode %d but has twelve transpositions", m, c.messiaen)
		}
	}
	for mode, transpositions := range map[int]int{1: 2, 2: 3, 3: 4, 4: 6, 5: 6, 6: 6, 7: 6} {
		if modes[mode] != transpositions {
			t.Errorf("mode %d stands for %d sets, want %d", mode, modes[mode], transpositions)
		}
	}
}

func TestComplementsShareTheirNumber(t *testing.T) {
	for m := range mask(1 << 12) {
		_, own, _ := strings.Cut(setClasses()[m].forte, "-")
		_, other, _ := strings.Cut(setClasses()[chromaticMask&^m].forte, "-")
		if m.size() != 6 && m != 0 && m != chromaticMask && own != other {
			t.Errorf("%012b is %s, its complement %s", m, setClasses()[m].forte, setClasses()[chromaticMask&^m].forte)
		}
	}
}
