// Package mark knows which fineness an article may be marked with and whether
// it needs a hallmark, country by country.
//
// Laws change. Every country here is data with its sources and the month in
// which they were read, mostly as excerpts; a field that was not seen is marked
// as not known and is never filled in by likeness with a neighbour. Nothing
// here is legal advice: each verdict carries the sentence [Decides], and
// whoever sells the article checks with the assay office of the country.
//
// Use first: [MarkFor] for the figure to be struck, [Judge] for hallmark or
// exemption, [Remarks] for nickel, cadmium and lead, [Solder] for the solder of
// an article. [Countries] lists what is on file.
//
// Finenesses are whole parts per million and weights whole milligrams, so that
// every comparison is exact: 14 parts in 24 are 583 333 and never 585 000. A
// shortfall that some law tolerates is told, but never used to mark higher.
package mark
