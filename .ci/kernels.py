"""Name the kernels of numpy's and scipy's BLAS; fail where one was asked for and not taken."""

import os
import sys

import numpy.linalg
import scipy.linalg
import threadpoolctl

used = sorted(
    {
        library["architecture"].lower()
        for library in threadpoolctl.threadpool_info()
        if library["internal_api"] == "openblas"
    }
)
asked = os.environ.get("OPENBLAS_CORETYPE", "").lower()
print("numpy", numpy.__version__, "scipy", scipy.__version__, "on", *used)
sys.exit(bool(asked) and used != [asked])
