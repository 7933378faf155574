package practice

// A Record is everything of one player that the rules look at.
type Record struct {
	Items     []Item     // on the shelf, oldest first
	Standings []Standing // their units, in the order of each item's scope
	Moves     Tally
	Topics    []Topic // what was asked so far
	Days      []DayTotal
}

// A DayTotal is how long was practised on a day.
type DayTotal struct {
	Day     string  `json:"day"`
	Seconds float64 `json:"seconds"`
	Runs    int     `json:"runs"`
}

// item returns the item of an id.
func (r *Record) item(id int64) *Item {
	for i := range r.Items {
		if r.Items[i].ID == id {
			return &r.Items[i]
		}
	}
	return nil
}
