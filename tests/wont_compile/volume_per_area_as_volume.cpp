// expect: conversion from 'Quantity<1,[...]>' to non-scalar type 'Quantity<3,[...]>'
#include "quantity/quantity.h"

using namespace wheyfield::quantity;

#ifdef WONT_COMPILE
const Volume depth = litres(20) / square_metres(10);
#else
const Length depth = litres(20) / square_metres(10);
#endif
