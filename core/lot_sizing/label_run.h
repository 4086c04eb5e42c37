// One pass of the dynamic programme of a product, with labels for the cells carried.
#pragma once

#include <optional>
#include <vector>

#include "lot_sizing/product_program.h"

namespace wheyfield::lot_sizing {

// How strictly a pass keeps what it does not carry in labels.
struct Strictness {
  bool windows = false;   // every unit from a lot that keeps until its last use; else windows as if
                          // no later due ended sooner (a relaxation)
  bool cans = false;      // stock fits the cans of every later day; else of the ready day
  bool supplies = false;  // lots count for the most that they may draw between two marks, quarters
                          // among them; else for the least
  bool by_quarters = false;  // and only so, whatever Carried says
  bool beam = false;         // too many labels: keep the best; else give up
  bool only_missed = false;  // nothing costs but what stays short
  bool all_days = false;  // carry every day of a resource that was found to bind, and every supply
};

struct RunAnswer {
  Cost value = never;
  std::vector<Held> held;   // by session
  std::vector<Cost> least;  // of the row's first units, by their count
};

// None when there were more labels than `effort.labels` and no beam was asked for.
std::optional<RunAnswer> run_labels(const Problem& problem, std::size_t product, const Left& left,
                                    const Prices* prices, const Effort& effort,
                                    const Carried& carried, Strictness strictness, Work& work);

}  // namespace wheyfield::lot_sizing
