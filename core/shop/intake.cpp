#include "core/shop/intake.h"
