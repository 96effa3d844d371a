#include "app/parts/form.h"
