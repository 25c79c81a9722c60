// Package verify holds a plan against its request by arithmetic of its own. It
// knows what is asked and answered (package ration), the tables of foods and
// stores and the needs of people; it imports nothing of the solver, neither its
// model nor the rules that build it, so that an error there is found here.
//
// What each person may eat and how much of it, how long an opened pack keeps,
// what a pack gives before it spoils, the pattern of food groups, the water and
// the heat are worked out from the rows of the data files themselves
// (caps.csv, pattern.csv, preparation.csv, keeping.csv), as the design of the
// ration model writes them:
//
//	packs     Σ_p n_p y_pf ≤ Σ_k min(net_k, Σ_p n_p m_pf, C_f) (x_k + s_k)
//	opened    y_pf ≤ m_pf Σ_k (x_k + s_k)
//	needs     D·min ≤ Σ_f a_f y_pf ≤ D·max
//	water     w ≥ 1.1 (Σ_p n_p kept_p + preparation + formula) + D·hygiene per head + pets
//	heat      h ≥ Σ heat_f y_pf, boiling of what is drunk where it must be boiled
//
// Grams are over the whole horizon on the basis of the food's row, litres and MJ
// likewise; needs are a day.
package verify
