package html

// outcome is what one call of work gave.
type outcome[T any] struct {
	made T
	err  error
}

// inOrder calls work for 0 to n-1, up to parallel at once, and keep with each
// result in turn, always from this goroutine. Order is what makes the record
// the same on one core and on sixteen; the queue's length is what keeps memory
// flat while a slow first picture holds up the others. It returns the first
// error in order, after the calls under way have ended.
func inOrder[T any](n, parallel int, work func(int) (T, error), keep func(int, T) error) error {
	parallel = max(parallel, 1)
	queue := make(chan chan outcome[T], parallel-1)
	stop := make(chan struct{})
	go feed(n, queue, stop, work)
	var first error
	i := 0
	for done := range queue {
		got := <-done
		if first != nil {
			continue
		}
		if first = got.err; first == nil {
			first = keep(i, got.made)
		}
		if first != nil {
			close(stop)
		}
		i++
	}
	return first
}

// feed starts one call for each free place in the queue until told to stop.
func feed[T any](n int, queue chan<- chan outcome[T], stop <-chan struct{}, work func(int) (T, error)) {
	defer close(queue)
	for i := range n {
		done := make(chan outcome[T], 1)
		select {
		case <-stop:
			return
		case queue <- done:
		}
		go func() {
			made, err := work(i)
			done <- outcome[T]{made, err}
		}()
	}
}
