#include "core/calendar/minutes.h"
