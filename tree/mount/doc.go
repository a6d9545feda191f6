// Package mount finds where each casting hangs on the trunk of a tree: level,
// hour mark, tilt and feeder. It takes plain values: bodies with their measured
// points (or their outer size), a flask, and the gaps to keep.
//
// # Frame of the tree
//
// Millimetres. The axis of the trunk is Z; Z = 0 is where the trunk leaves the
// button, Z grows towards the top of the tree. Seen from the top, 12 o'clock is
// +Y, 3 o'clock is +X, and hours run clockwise. A casting at hour h has its
// feeder in the half plane of direction (sin 30°h, cos 30°h).
//
// # What is kept
//
//   - Castings of one tree lie at least Gaps.Between apart, and as far from the
//     face of the button; no feeder comes nearer to a casting that it does not feed.
//   - Feeders do not run into each other.
//   - No casting is nearer to the flask wall, to the fill level or to the trunk
//     than the gaps say.
//   - A hang is sound: tilt and length of the feeder within [Sound]. Only where
//     [Options.Poor] allows it are others taken, and then they are remarked on.
//   - Heavy castings hang towards the button: no casting is on a lower level than
//     one heavier by more than the band of weights taken as equal.
//
// A casting is taken as a few convex pieces that hold its whole mesh, padded by
// what was cut off their corners, so that a distance that is accepted is one
// that the mesh keeps too. A body known by its outer size is that box.
//
// # What is proved
//
// [Place] answers [Hangs] with a tree, [CannotProved] with a reason that holds
// for every position, tilt and turn, or [GaveUp] when the search ended without
// either. The proofs take each casting as its convex hull: a bangle threaded over
// the trunk, or two rings hung through each other, are not looked at.
//
// # What is remembered
//
// Whether two castings are too near depends on their poses, the hours between them
// and the difference in height, all of which are steps. A [Memory] keeps the
// answers, so that neither a search nor the next one compares the same again: on
// the sample's week the slower search took 8.7 s without, and 1.1 s with it.
//
// Every search counts its steps (pairs of castings compared) and none looks at
// the time, so the same bodies give the same tree on every machine.
package mount
