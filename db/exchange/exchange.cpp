#include "db/exchange/exchange.h"
