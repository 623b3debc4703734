// The choices that tests name.
#pragma once

#include "core/draft/options/band.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/sewing.h"
#include "core/draft/options/strap.h"
#include "core/draft/styles/style.h"
