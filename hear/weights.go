package hear

// The weights of a moment's evidence, in the order of moment.evidence, for
// moments that bring a new pitch and for those that repeat the last one: two
// logistic regressions on the takes of the evaluation's open part. TestFit
// fits them anew.
var freshWeights = [evidenceCount]float64{
	-4.70, 0.39, 0.58, -0.09, 0.30, 12.47,
	4.48, 3.34, -2.12, 2.25, -0.57, 2.65,
	0.88, -6.85, -0.52, -0.39,
}
var againWeights = [evidenceCount]float64{
	-5.30, 1.06, 1.33, 2.21, 4.45, 1.37,
	-0.10, 0.44, 1.44, 0.00, -0.24, 2.24,
	3.48, -3.65, -0.16, -2.41,
}
