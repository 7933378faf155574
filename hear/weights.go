package hear

// evidenceWeights weigh a moment's evidence: a logistic regression on the
// takes of the evaluation's open part, in the order of moment.evidence.
// TestFit fits them anew.
var evidenceWeights = [evidenceCount]float64{
	-5.21, -0.01, 0.60, -1.52, 10.16, 7.80,
	2.49, -0.95, 1.67, -1.35, 2.29, -2.04,
	1.89, -1.67, 0.57, -1.21, 1.01, -4.49,
	-9.29,
}
