#include "app/parts/edits.h"
