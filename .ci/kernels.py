"""Name the kernels that numpy's and scipy's BLAS took; fail where one is not the one asked for."""

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
print("numpy", numpy.__version__, "scipy", scipy.__version__, "on", *used)
sys.exit(used != [os.environ["OPENBLAS_CORETYPE"].lower()])
