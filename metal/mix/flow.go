package mix

// network is a flow network of few nodes: room[a][b] is what can still be sent
// from a to b, sent[a][b] what was.
type network struct{ room, sent [][]int64 }

func newNetwork(nodes int) *network {
	n := &network{make([][]int64, nodes), make([][]int64, nodes)}
	for i := range nodes {
		n.room[i], n.sent[i] = make([]int64, nodes), make([]int64, nodes)
	}
	return n
}

func (n *network) connect(a, b int, most int64) { n.room[a][b] += most }

func (n *network) flow(a, b int) int64 { return max(n.sent[a][b], 0) }

// augment adds shortest augmenting paths until none is left. The count of paths
// is bounded by nodes × arcs whatever the weights (J. Edmonds, R. M. Karp,
// Journal of the ACM 19, 1972). The lowest node goes first, so that the same
// lots give the same answer.
func (n *network) augment(source, sink int) {
	for {
		from := n.path(source, sink)
		if from == nil {
			return
		}
		least := int64(-1)
		for b := sink; b != source; b = from[b] {
			if r := n.room[from[b]][b]; least < 0 || r < least {
				least = r
			}
		}
		for b := sink; b != source; b = from[b] {
			a := from[b]
			n.room[a][b] -= least
			n.room[b][a] += least
			n.sent[a][b] += least
			n.sent[b][a] -= least
		}
	}
}

func (n *network) path(source, sink int) []int {
	from := make([]int, len(n.room))
	for i := range from {
		from[i] = -1
	}
	from[source] = source
	for queue := []int{source}; len(queue) > 0; queue = queue[1:] {
		a := queue[0]
		for b, r := range n.room[a] {
			if r > 0 && from[b] < 0 {
				from[b] = a
				if b == sink {
					return from
				}
				queue = append(queue, b)
			}
		}
	}
	return nil
}
