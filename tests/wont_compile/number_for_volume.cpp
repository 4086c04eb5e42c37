// expect: conversion from 'int' to non-scalar type
#include "quantity/quantity.h"

using namespace wheyfield::quantity;

#ifdef WONT_COMPILE
const Volume can = 20;
#else
const Volume can = litres(20);
#endif
