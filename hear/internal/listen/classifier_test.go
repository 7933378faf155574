package listen

import "testing"

func TestTheWeightsFillBothClassifiers(t *testing.T) {
	for name, c := range map[string]*Classifier{"whole": &fitted().Whole, "early": &fitted().Early} {
		if c.Out[HiddenCount] == 0 {
			t.Errorf("%s: the last weight is missing", name)
		}
		for h, row := range c.Hidden {
			if row[FeatureCount] == 0 || c.Out[h] == 0 {
				t.Errorf("%s: row %d is not full", name, h)
			}
		}
	}
}
