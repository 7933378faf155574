// Simulate lets made-up learners practise for 60 days by the plan of package
// practice and in three other ways, and prints how far each got as the table
// of doc/practice.md. A simulation is not a player: it shows that the plan does
// what it is meant to do in a world where the model holds.
//
//	go run ./practice/internal/simulate
package main

import (
	"flag"
	"fmt"
	"log"
	"math"
)

func main() {
	seeds := flag.Int("learners", 40, "how many learners for each row")
	days := flag.Int("days", 60, "days of practice")
	flag.Parse()
	fmt.Println("| shelf | minutes a day | how | clean units | keys with a clean unit | units never played | minutes played |")
	fmt.Println("| --- | --- | --- | --- | --- | --- | --- |")
	for _, of := range shelves {
		for _, minutes := range []int{20, 30, 60} {
			for _, way := range ways {
				var clean, keys, untouched, played []float64
				for seed := range *seeds {
					r, err := practise(way.session, of, minutes, *days, uint64(seed))
					if err != nil {
						log.Fatal(err)
					}
					clean, keys = append(clean, r.clean), append(keys, r.keys)
					untouched, played = append(untouched, r.untouched), append(played, r.minutes)
				}
				fmt.Printf("| %s | %d | %s | %s | %s | %s | %s |\n", of.name, minutes, way.name, spread(clean), spread(keys), spread(untouched), spread(played))
			}
		}
	}
}

// spread writes mean and standard error.
func spread(x []float64) string {
	var sum, squares float64
	for _, v := range x {
		sum += v
		squares += v * v
	}
	n := float64(len(x))
	mean := sum / n
	return fmt.Sprintf("%.1f ± %.1f", mean, math.Sqrt(math.Max(0, squares/n-mean*mean)/n))
}
