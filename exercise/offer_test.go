package exercise

import (
	"net/url"
	"slices"
	"testing"
)

func offersOf(t *testing.T, query, field, root, kind string) (ex *Exercise, groups []OfferGroup) {
	t.Helper()
	s, err := ParseQuery(query)
	if err != nil {
		t.Fatal(err)
	}
	if ex, err = Build(s); err != nil {
		t.Fatal(err)
	}
	if groups, err = ex.Offers(field, root, kind); err != nil {
		t.Fatal(err)
	}
	return ex, groups
}

// Whatever is offered can be chosen, and is what its title says.
func TestEveryOfferCanBeChosen(t *testing.T) {
	const query = "chord=Gm7&home=G+minor+pentatonic&superimpose=semitone+up&land=third"
	for _, f := range Fields() {
		for _, of := range [][2]string{{}, {"Eb", "dorian"}, {"F#", "whole tone"}} {
			_, groups := offersOf(t, query, f.Name, of[0], of[1])
			for _, g := range groups {
				for _, o := range g.Offers {
					values, _ := url.ParseQuery(query)
					values.Set(f.Name, o.Value)
					if o.Value == "" {
						values.Del(f.Name)
					}
					s, err := FromValues(values)
					if err != nil {
						t.Fatalf("%s %q: %v", f.Name, o.Value, err)
					}
					if f.Name != "home" && f.Name != "chord" && f.Name != "superimpose" {
						continue
					}
					ex, err := Build(s)
					if err != nil {
						t.Fatalf("%s %q: %v", f.Name, o.Value, err)
					}
					var scale []string
					switch {
					case f.Name == "home":
						for _, n := range ex.Scales[0].Notes {
							scale = append(scale, n.String())
						}
					case f.Name == "superimpose" && o.Value != "":
						for _, n := range ex.Scales[1].Notes {
							scale = append(scale, n.String())
						}
					default:
						continue
					}
					var offered []string
					for _, n := range o.Notes {
						offered = append(offered, n.Name.String())
					}
					if !slices.Equal(scale, offered) {
						t.Errorf("%s %q offers %v and gives %v", f.Name, o.Value, offered, scale)
					}
				}
			}
		}
	}
}

func TestScalesAreOfferedFromInsideToOutside(t *testing.T) {
	_, groups := offersOf(t, "chord=Gm7&home=G+minor+pentatonic", "superimpose", "", "")
	rows := groups[1].Offers
	if len(rows) != 11 {
		t.Fatalf("%d rows, want every root but home's", len(rows))
	}
	for _, want := range []struct{ value, says string }{
		{"whole tone up", "adds A E"}, {"fourth up", "adds E♭"}, {"tritone", "adds five"}, {"semitone up", "adds five"},
	} {
		i := slices.IndexFunc(rows, func(o Offer) bool { return o.Value == want.value })
		if i < 0 || len(rows[i].Says) < len(want.says) || rows[i].Says[:len(want.says)] != want.says {
			t.Errorf("%s is not said to be %q: %+v", want.value, want.says, rows)
		}
	}
}
