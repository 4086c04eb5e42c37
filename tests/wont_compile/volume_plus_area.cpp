// expect: no match for 'operator+'
#include "quantity/quantity.h"

using namespace wheyfield::quantity;

#ifdef WONT_COMPILE
const auto sum = litres(20) + square_metres(10);
#else
const Volume sum = litres(20) + millilitres(5);
#endif
