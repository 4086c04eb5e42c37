// expect: no match for 'operator+'
#include "quantity/money.h"

using wheyfield::quantity::Money;

#ifdef WONT_COMPILE
const auto total = Money::from_thousandths(200) + 0.5;
#else
const auto total = Money::from_thousandths(200) + Money::from_thousandths(500);
#endif
