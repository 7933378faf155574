package bench_test

import "testing"

// changesQuickly measures from the change of a word until a frame with all that
// is in sight has been painted, and reports it beside the least that this
// browser takes here: to fetch a whole answer and paint a word in another
// colour. The budget is 50 ms on a free machine; a test holds nothing to a time.
func changesQuickly(t *testing.T, b browser, home string) {
	p := b.tab(t, 1440, 900)
	p.open(home + "/")
	const measure = `(async () => {
		const rest = () => new Promise(done => setTimeout(done, 150));
		const frame = () => new Promise(done => requestAnimationFrame(() => {
			const painted = new MessageChannel(); // its message comes when the frame is done
			painted.port1.onmessage = () => done(performance.now());
			painted.port2.postMessage(0);
		}));
		const changed = id => new Promise(done => new MutationObserver((_, observer) => {
			observer.disconnect();
			done(frame());
		}).observe(document.getElementById(id), {attributeFilter: ["data-mark"]}));
		const middle = (times) => times.sort((a, b) => a - b)[times.length / 2];
		const result = {};
		const all = [], least = [];
		const directions = ["up", "down", "up-down", "down-up"];
		for (let i = 0; i < 24; i++) {
			await rest();
			const select = document.getElementById("word-direction");
			select.focus();
			const seen = Promise.all(["system-0", "system-1", "cards"].map(changed));
			const before = performance.now();
			select.value = directions[i % 4];
			select.dispatchEvent(new Event("change", {bubbles: true}));
			all.push(Math.max(...await seen) - before);
			await rest();
			const begun = performance.now();
			const answer = await fetch(location.href, {headers: {"HX-Request": "true"}});
			await answer.text();
			document.querySelector(".sentence").style.color = i % 2 ? "" : "gray";
			least.push(await frame() - begun);
		}
		return {All: middle(all), Best: all[0], Worst: all[all.length - 1], Least: middle(least), BestLeast: least[0]};
	})()`
	m := value[struct{ All, Best, Worst, Least, BestLeast float64 }](p, measure)
	if m.All == 0 {
		t.Fatal("no change was seen")
	}
	t.Logf("a changed word: neck, line and cards, as far as in sight, painted after %.0f ms (best %.0f, worst %.0f); the least here is %.0f (best %.0f); medians of 24",
		m.All, m.Best, m.Worst, m.Least, m.BestLeast)
}
