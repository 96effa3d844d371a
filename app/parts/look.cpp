#include "app/parts/look.h"
