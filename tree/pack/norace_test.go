//go:build !race

package pack

const slowdown = 1
