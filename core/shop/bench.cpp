#include "core/shop/bench.h"
