#include "core/shop/rules.h"
