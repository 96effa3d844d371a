#include "db/store.h"
