// expect: could not convert
#include "quantity/quantity.h"

using namespace wheyfield::quantity;

#ifdef WONT_COMPILE
const double read = in_litres(kilograms(1));
#else
const double read = in_litres(litres(1));
#endif
