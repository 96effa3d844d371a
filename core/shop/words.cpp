#include "core/shop/words.h"
