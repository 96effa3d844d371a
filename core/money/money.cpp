#include "core/money/money.h"
