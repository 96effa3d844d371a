#include "core/shop/stage.h"
