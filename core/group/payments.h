// What members paid in and were paid out, in money and in kind, from the notes.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "calendar/date.h"
#include "group/persons.h"
#include "quantity/money.h"
#include "quantity/units.h"

namespace wheyfield::group {

// Sums are whole numbers, so that they are the same in any order.
struct Paid {
  quantity::Money money;
  // What and unit -> thousandths: {"milk", "L"} -> 20000. Volumes in L, masses in kg, lengths in m,
  // everything else in the unit that was written.
  std::map<std::pair<std::string, std::string>, std::int64_t> kind;

  bool nothing() const { return money == quantity::Money() && kind.empty(); }
};

struct Balance {
  Paid in;
  Paid out;
};

struct Payments {
  std::map<std::string, Balance> by_person;  // "" = paid out to nobody in particular
  Balance all;
  std::vector<const journal::Event*> unread;  // that say no amount, or none that can be read
};

// Notes of the kinds `paid-in` and `paid-out` from day `first` to day `last`.
Payments payments(const journal::Facts& facts, const quantity::UnitTable& units,
                  const Persons& persons, calendar::Date first, calendar::Date last);

// The first and the last day that can be written down.
calendar::Date first_day();
calendar::Date last_day();

}  // namespace wheyfield::group
