package deliver

import (
	"net/url"
	"strings"
	"testing"

	"heddle/audio"
	"heddle/sound"
)

func chosen(t *testing.T, query string) (Choices, error) {
	t.Helper()
	values, err := url.ParseQuery(query)
	if err != nil {
		t.Fatal(err)
	}
	return Choose(values)
}

func TestTheDefaultsAreTheSameForAll(t *testing.T) {
	c, err := chosen(t, "vamp=&hide=&home=C+major") // an empty form, and a field of a spec
	if err != nil {
		t.Fatal(err)
	}
	if c.Sound != sound.DefaultOptions() || c.Bits != audio.Bits24 || c.Paper != "a4" || c.Label != "names" || c.Neck != "hand" || c.Query() != "" {
		t.Errorf("%+v", c)
	}
}

func TestChoicesAreReadAndWrittenBack(t *testing.T) {
	const query = "label=degrees&hide=tab&hide=names&vamp=funk&count-in=2&response=true&mute=drums&level=bass%3D-6&bits=16"
	c, err := chosen(t, query)
	if err != nil {
		t.Fatal(err)
	}
	if c.Label != "degrees" || !c.Hides("names") || !c.Hides("tab") || c.Sound.Vamp != sound.FunkVamp || c.Sound.CountIn != 2 || !c.Sound.CallAndResponse ||
		!c.Sound.Mix[sound.Drums].Mute || c.Sound.Mix[sound.Bass].LevelDB != -6 || c.Bits != audio.Bits16 {
		t.Errorf("%+v", c)
	}
	if c.Query() != "&"+query {
		t.Errorf("written back as %s", c.Query())
	}
	if c, err = chosen(t, "label=names&voice=false&bits=24&hide=tab&hide=tab"); err != nil || c.Query() != "&hide=tab" {
		t.Errorf("what is usual is written back as %s, %v", c.Query(), err)
	}
}

func TestBadChoicesSayWhatIsAccepted(t *testing.T) {
	for query, want := range map[string]string{
		"vamp=fnuk":          `vamp "fnuk": want click, drone, funk, sixteenth funk, half-time, swing, up-tempo swing, slow blues, bossa, ballad or straight ballad; did you mean "funk"?`,
		"label=degreees":     `label "degreees": want one of names, degrees, nothing; did you mean "degrees"?`,
		"hide=everything":    `hide "everything": want one of names, tab, line`,
		"count-in=-1":        `count-in "-1": want a whole number, 0 or more`,
		"voice=maybe":        `voice "maybe": want true or false`,
		"level=bass":         `level "bass": want a part, = and a number, such as bass=-6`,
		"vamp=funk&vamp=x":   `vamp "x": want one value, and it was given before`,
		"seed=-3":            `seed "-3": want a whole number, 0 or more`,
		"mute=trumpet":       `part "trumpet": want line, chords, bass, drums, click or voice`,
		"tone=kazoo":         `tone "kazoo": want electric clean, electric driven, steel acoustic, nylon, bass guitar, ukulele or mandolin`,
		"bits=8":             `bits "8": want 16, 24 or 32f`,
		"ladder=60-300+by+0": `ladder "60-300 by 0 every 1": want a step above 0`,
	} {
		if _, err := chosen(t, query); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%s gives %v, want %s", query, err, want)
		}
	}
}

func TestEveryFormatIsFoundByItsEnding(t *testing.T) {
	for _, name := range Names() {
		if f, err := ForFile("a/LINE." + strings.ToUpper(name)); err != nil || f.Name != name {
			t.Errorf("%s is found as %q, %v", name, f.Name, err)
		}
	}
	if _, err := ForFile("line"); err == nil || !strings.HasPrefix(err.Error(), `output "line": want a file name ending in one of pdf, svg, png`) {
		t.Error(err)
	}
}
