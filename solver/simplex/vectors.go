package simplex

import "math"

// largest returns the size of the largest entry of v, 0 if it is empty.
func largest(v []float64) float64 {
	top := 0.0
	for _, x := range v {
		top = max(top, math.Abs(x))
	}
	return top
}

// lists is a growing sequence of sparse vectors, one after the other.
type lists struct {
	start []int32 // one more than there are vectors
	index []int32
	value []float64
}

func (l *lists) reset() {
	l.start = append(l.start[:0], 0)
	l.index, l.value = l.index[:0], l.value[:0]
}

func (l *lists) add(k int32, v float64) {
	l.index, l.value = append(l.index, k), append(l.value, v)
}

// close ends the vector to which entries were added.
func (l *lists) close() { l.start = append(l.start, int32(len(l.index))) }

func (l *lists) at(k int) ([]int32, []float64) {
	lo, hi := l.start[k], l.start[k+1]
	return l.index[lo:hi], l.value[lo:hi]
}

func (l *lists) copyFrom(o *lists) {
	l.start = append(l.start[:0], o.start...)
	l.index = append(l.index[:0], o.index...)
	l.value = append(l.value[:0], o.value...)
}

// segments holds m sparse vectors that grow and shrink: one that outgrows its
// room moves to the end.
type segments struct {
	start, length, room []int32
	index               []int32
	value               []float64
}

func (s *segments) reset(m int) {
	s.start, s.length, s.room = zeroed(s.start, m), zeroed(s.length, m), zeroed(s.room, m)
	s.index, s.value = s.index[:0], s.value[:0]
}

func (s *segments) at(k int32) ([]int32, []float64) {
	lo := s.start[k]
	hi := lo + s.length[k]
	return s.index[lo:hi], s.value[lo:hi]
}

// open starts vector k behind the last, and close ends it with the entries appended since.
func (s *segments) open(k int32) { s.start[k] = int32(len(s.index)) }

func (s *segments) close(k int32) {
	n := int32(len(s.index)) - s.start[k]
	s.length[k], s.room[k] = n, n
}

// add appends an entry to vector k.
func (s *segments) add(k, i int32, v float64) {
	n := s.length[k]
	if n == s.room[k] {
		lo := s.start[k]
		s.start[k], s.room[k] = int32(len(s.index)), 2*n+4
		s.index = append(s.index, s.index[lo:lo+n]...)
		s.value = append(s.value, s.value[lo:lo+n]...)
		end := int(s.start[k] + s.room[k])
		s.index, s.value = extended(s.index, end), extended(s.value, end)
	}
	at := s.start[k] + n
	s.index[at], s.value[at] = i, v
	s.length[k] = n + 1
}

// remove takes entry i out of vector k, which has it.
func (s *segments) remove(k, i int32) {
	at, last := s.start[k], s.start[k]+s.length[k]-1
	for s.index[at] != i {
		at++
	}
	s.index[at], s.value[at] = s.index[last], s.value[last]
	s.length[k]--
}

func (s *segments) copyFrom(o *segments) {
	s.start = append(s.start[:0], o.start...)
	s.length = append(s.length[:0], o.length...)
	s.room = append(s.room[:0], o.room...)
	s.index = append(s.index[:0], o.index...)
	s.value = append(s.value[:0], o.value...)
}

// zeroed returns v with length n and all zeros, re-using its memory.
func zeroed[T int32 | float64 | bool](v []T, n int) []T {
	if cap(v) < n {
		return make([]T, n, n+n/8)
	}
	v = v[:n]
	clear(v)
	return v
}

// filled returns v with length n and x throughout, re-using its memory.
func filled[T int32 | float64](v []T, n int, x T) []T {
	v = zeroed(v, n)
	for i := range v {
		v[i] = x
	}
	return v
}

// extended returns v with length n; what is new has no meaning yet.
func extended[T any](v []T, n int) []T {
	if n <= cap(v) {
		return v[:n]
	}
	w := make([]T, n, 2*n)
	copy(w, v)
	return w
}
