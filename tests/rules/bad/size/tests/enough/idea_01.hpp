// A header and its source are one idea.
#pragma once
