package plan

import (
	"math"

	"rationwright/solver/answer"
	"rationwright/solver/model"
	"rationwright/solver/ration"
)

// OfWayOut is the plan that was found with w, with all that a plan carries: its
// cautions, its request, the independent check. No bound of it is known; [Make] finds a
// better one and proves it. It returns [ration.ErrUnverified], and errors of the request.
func OfWayOut(w *ration.WayOut) (*ration.Plan, error) {
	m, err := model.Build(w.Request)
	if err != nil {
		return nil, err
	}
	p := *w.Plan
	p.Judge(math.Inf(-1), m.Request.Within)
	return answer.Verified(m.Request, answer.Complete(m, &p))
}
