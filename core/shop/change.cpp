#include "core/shop/change.h"
