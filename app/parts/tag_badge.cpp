#include "app/parts/tag_badge.h"
