#include "core/shop/shelf.h"
