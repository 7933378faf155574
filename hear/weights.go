package hear

// evidenceWeights weigh a moment's evidence: a logistic regression on the
// takes of the evaluation's open part, in the order of moment.evidence.
// TestFit fits them anew.
var evidenceWeights = [evidenceCount]float64{
	-4.96, 0.17, 0.56, 1.41, 9.81, 4.40,
	2.64, -0.62, 2.22, -1.48, 2.27, -2.06,
	1.95, -3.30, 1.00, -1.86, 1.34, -0.38,
	-9.64,
}
