package pluck

// The named tones. Their figures are ours, fitted to what the measuring command
// finds in recorded instruments (doc/sound.md). Pick-up coil and cable resonate
// near 4 kHz; a twelve-inch loudspeaker falls steeply from 4 to 5 kHz; a guitar's
// body has its air mode near 100 Hz and its top near 200 and 400 Hz (Fletcher
// and Rossing 1998, §9.4), smaller bodies higher.
var (
	ElectricClean = Strung{
		lowest:    stringKind{40, losses{3, 56, 2.9}, 0.6e-4},
		highest:   stringKind{64, losses{4.5, 52, 3.6}, 0.9e-4},
		plainFrom: 53, planes: twoPlanes, stopLoss: 1.4,
		pickMM: 95, pickupMM: 128, depth: 0.85,
		tones: []tone{{below, 4200, 1.3, 0}, {around, 2900, 0.7, 9}, {above, 75, 1.1, 0}, {below, 5000, 0.8, 0}},
		softS: 0.0007, hardS: 0.00014, scrape: 0.06, knock: 0.2, rub: 1, dampS: 0.07,
		out: outlet{drive: 0.9}, // so gentle that the loudspeaker can come before it
	}
	ElectricDriven = Strung{
		lowest:    stringKind{40, losses{4, 30, 4}, 1e-6},
		highest:   stringKind{64, losses{5, 34, 4}, 1e-6},
		plainFrom: 53, planes: twoPlanes, stopLoss: 1.4,
		pickMM: 85, pickupMM: 70, depth: 0.8,
		tones: []tone{{below, 3200, 1.1, 0}, {around, 900, 0.7, 5}, {above, 110, 0.8, 0}},
		softS: 0.0007, hardS: 0.00014, scrape: 0.05, knock: 0.1, rub: 0.7, dampS: 0.06,
		out: outlet{drive: 9, bias: 0.15, levelDB: 6, tones: []tone{{below, 4300, 0.9, 0}, {below, 4600, 0.6, 0}}},
	}
	SteelAcoustic = Strung{
		lowest:    stringKind{40, losses{15, 75, 7}, 0.4e-4},
		highest:   stringKind{64, losses{19, 125, 6}, 0.5e-4},
		plainFrom: 57, planes: twoPlanes, stopLoss: 1.6,
		pickMM: 120, pickupMM: 14, depth: 0.45,
		tones: []tone{{below, 9000, 0.7, 0}, {above, 80, 0.8, 0}, {around, 3200, 0.6, 7}},
		softS: 0.0006, hardS: 0.00012, scrape: 0.09, knock: 0.6, rub: 1.6, dampS: 0.07,
		out: outlet{levelDB: 1.2, tones: []tone{{around, 104, 9, 8}, {around, 205, 12, 9}, {around, 395, 8, 5}, {around, 720, 3, -4}}},
	}
	Nylon = Strung{
		lowest:    stringKind{40, losses{8, 24, 6}, 0.15e-4},
		highest:   stringKind{64, losses{29, 110, 6}, 0.6e-4},
		plainFrom: 53, planes: twoPlanes, stopLoss: 1.6,
		pickMM: 130, pickupMM: 14, depth: 0.45,
		tones: []tone{{below, 5500, 0.7, 0}, {above, 75, 0.8, 0}, {around, 1600, 0.6, 5}},
		softS: 0.0010, hardS: 0.00028, scrape: 0.02, knock: 0.5, rub: 1.2, dampS: 0.08,
		out: outlet{levelDB: 0.3, tones: []tone{{around, 98, 9, 8}, {around, 190, 12, 9}, {around, 380, 8, 5}, {around, 700, 3, -3}}},
	}
	BassGuitar = Strung{
		lowest:    stringKind{28, losses{2.5, 22, 9}, 2e-4},
		highest:   stringKind{43, losses{4, 22, 8}, 0.6e-4},
		plainFrom: 0, planes: onePlane, stopLoss: 1.2,
		pickMM: 150, pickupMM: 105, depth: 0.9,
		tones: []tone{{below, 3200, 0.8, 0}, {around, 130, 0.9, 3}, {around, 1000, 0.7, 9}, {above, 38, 0.8, 0}, {below, 4200, 0.7, 0}},
		softS: 0.0026, hardS: 0.0007, scrape: 0.05, dampS: 0.06,
		out: outlet{levelDB: 1.5},
	}
	Ukulele = Strung{
		lowest:    stringKind{60, losses{24, 70, 5}, 0.5e-4},
		highest:   stringKind{69, losses{30, 80, 5}, 0.7e-4},
		plainFrom: 0, planes: twoPlanes, stopLoss: 1.5,
		pickMM: 95, pickupMM: 10, depth: 0.45,
		tones: []tone{{below, 5200, 0.7, 0}, {above, 150, 0.8, 0}},
		softS: 0.0011, hardS: 0.0004, scrape: 0.02, knock: 0.4, dampS: 0.06,
		out: outlet{levelDB: -0.7, tones: []tone{{around, 270, 5, 7}, {around, 480, 6, 7}, {around, 900, 4, 3}, {around, 1500, 2, -3}}},
	}
	Mandolin = Strung{
		lowest:    stringKind{55, losses{22, 55, 7}, 0.8e-4},
		highest:   stringKind{76, losses{30, 70, 6}, 0.8e-4},
		plainFrom: 65, planes: course, stopLoss: 1.5,
		pickMM: 60, pickupMM: 10, depth: 0.45,
		tones: []tone{{below, 7000, 0.7, 0}, {above, 150, 0.8, 0}, {around, 2800, 0.8, 3}},
		softS: 0.0005, hardS: 0.00013, scrape: 0.09, knock: 0.4, rub: 0.6, dampS: 0.06,
		out: outlet{levelDB: -2, tones: []tone{{around, 200, 5, 6}, {around, 430, 6, 6}, {around, 950, 4, 3}, {around, 1700, 2, -2}}},
	}
)

// How strings swing.
var (
	onePlane  = []plane{{1, 1, 1, 0}}
	twoPlanes = []plane{{1, 1.1, 1.05, -0.06}, {0.3, 0.35, 0.8, 0.2}}
	course    = []plane{{1, 1, 1, -0.5}, {0.9, 0.8, 1, 0.5}} // two strings, never quite together
)
