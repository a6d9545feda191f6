// Package pattern measures the mesh of a pattern: how much metal it asks for,
// whether it is sound, where it is thin, and how it will finish.
//
// The volume is that of the union: of all points whose winding number is one
// or more, which is the fill rule of the 3MF Core Specification 1.4.0, 4.1.1.
// Solids that run into each other are therefore counted once.
//
// # States
//
// A pattern is in one of three states:
//
//   - exact: the surface closes as it stands, or after repairs that guess
//     nothing (points joined within [JoinLimit], double faces dropped, faces
//     and whole solids turned the right way out).
//   - patched: holes were closed with a flat cone, and the patches are at most
//     [PatchLimit] of the skin. Up to [PatchRemarkLimit] a remark is enough.
//   - untrusted: the patches are larger than that, or it cannot be told what
//     is metal and what is not. The numbers are printed for a person to judge;
//     no charge may rest on them.
//
// # What the thickness check can miss
//
// Walls and gaps are sampled along columns about 1/512 of the longest side
// apart, in three directions. A feature narrower than that pitch, or smaller
// than [SmallestCluster], can be missed. Sharp edges, fillets and round wires
// that cross are not reported as thin walls.
package pattern
