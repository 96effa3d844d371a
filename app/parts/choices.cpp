#include "app/parts/choices.h"
