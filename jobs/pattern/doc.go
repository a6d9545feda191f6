// Package pattern measures the mesh of a pattern: how much metal it asks for,
// whether it is sound, where it is thin, and how it will finish.
//
// The volume is that of the union: of all points whose winding number is one
// or more, which is the fill rule of the 3MF Core Specification 1.4.0, 4.1.1.
// Solids that run into each other are therefore counted once. Columns in three
// directions only correct the exact sum of tetrahedra, see [Report.Bound].
//
// [Read] reads a file, [Mesh.Measure] measures it, [Measure] does both;
// [Mesh.Views] and [Picture] show it. Files that can not be read give a
// [problem.Problem]; whatever is wrong with a mesh that can is in the report.
//
// # States
//
// A pattern is in one of three states:
//
//   - exact: the surface closes as it stands, or after repairs that guess
//     nothing (points joined within [JoinLimit], double faces dropped, faces
//     cut where a corner of another lies on their side, faces and whole solids
//     turned the right way out).
//   - patched: holes were closed with a flat cone, and the patches are at most
//     [PatchLimit] of the skin. Up to [PatchRemarkLimit] a remark is enough.
//     The bound of the volume allows for what the lost skin may have done.
//   - untrusted: the patches are larger than that, or it cannot be told what
//     is metal and what is not. The numbers are printed for a person to judge;
//     no charge may rest on them, and an error among the problems says so.
//
// # What the thickness check sees and misses
//
// Walls and gaps are sampled along columns about 1/512 of the longest side
// apart, in three directions, on the united skin: skins buried in other solids
// do not count. What is measured is the ball that touches both sides. Walls at
// the limit, edges, fillets and round wires that cross are not reported as thin
// walls; places that run out to an edge are listed apart. A gap is reported when
// it is narrower than the limit and deeper than it is wide.
//
// Missed can be: what is narrower than the pitch of the columns (0.05 mm on a
// ring of 25 mm); a thin place or a gap smaller than [SmallestCluster]; a wall
// or gap whose skins close on each other at more than 37 degrees. Of round
// wires, round holes and the gap between round strands, the area tells only the
// part where the skins face each other.
package pattern
