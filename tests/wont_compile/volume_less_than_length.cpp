// expect: no match for 'operator<'
#include "quantity/quantity.h"

using namespace wheyfield::quantity;

#ifdef WONT_COMPILE
const bool fits = litres(13.5) < metres(2);
#else
const bool fits = litres(13.5) < litres(20);
#endif
