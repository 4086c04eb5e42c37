// expect: could not convert
#include "quantity/quantity.h"

using namespace wheyfield::quantity;

constexpr double spread_over(Area area) { return in_square_metres(area); }

#ifdef WONT_COMPILE
const double covered = spread_over(litres(20));
#else
const double covered = spread_over(hectares(1));
#endif
