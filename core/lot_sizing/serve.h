// Who is served from which lot: the sharing out of what was made.
//
// First in, first out while everything can be served: the earliest lot goes to the earliest
// collecting day it may serve. With constant life and a convex waiting allowance no other sharing
// out of the same lots costs less (an exchange argument; brute force in serve_test.cpp). When
// something stays short, what is given up and who draws on what is found by successive shortest
// paths: misses and waiting together cost the least.
#pragma once

#include "lot_sizing/problem.h"

namespace wheyfield::lot_sizing {

// Stock first, then the sessions of `product` that the plan holds, in the plan's order.
std::vector<Lot> lots_of(const Problem& problem, const Plan& plan, std::size_t product);

// `lots` are those of lots_of. Precondition: later lots keep no shorter than earlier ones
// (constant life).
Served serve(const Product& product, const std::vector<Lot>& lots);

}  // namespace wheyfield::lot_sizing
