#include "core/shop/selling.h"
