package hear

// The weights of a moment's evidence, in the order of moment.evidence, for
// moments that bring a new pitch and for those that repeat the last one: two
// logistic regressions on the takes of the evaluation's open part. TestFit
// fits them anew.
var freshWeights = [evidenceCount]float64{
	-4.81, 0.58, 0.49, 0.83, 1.36, 9.85,
	3.46, 3.94, -1.21, 1.96, -0.48, 2.53,
	1.43, -7.82, -0.44, -1.21,
}
var againWeights = [evidenceCount]float64{
	-1.96, 1.41, 1.05, 2.87, 3.02, 1.44,
	-1.85, 1.81, -1.24, 0.00, -0.42, 2.55,
	2.04, -7.96, -0.38, -3.01,
}
