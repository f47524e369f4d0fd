"""Pool published counts one can trace, and set a unit's own audit figures against them.

Importing this package loads nothing else: each public name is fetched when first used.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from evsyn.pooling.beta_binomial import pool_beta_binomial
    from evsyn.pooling.binomial_normal import pool_binomial_normal
    from evsyn.pooling.comparisons import pool_comparisons, pool_means
    from evsyn.pooling.functions import pool_estimates, pool_proportions
    from evsyn.pooling.result import Pooled

    __version__: str

#: Where each public name lives.
_HOMES = {
    "Pooled": "evsyn.pooling.result",
    "pool_beta_binomial": "evsyn.pooling.beta_binomial",
    "pool_binomial_normal": "evsyn.pooling.binomial_normal",
    "pool_comparisons": "evsyn.pooling.comparisons",
    "pool_estimates": "evsyn.pooling.functions",
    "pool_means": "evsyn.pooling.comparisons",
    "pool_proportions": "evsyn.pooling.functions",
}

__all__ = [
    "Pooled",
    "__version__",
    "pool_beta_binomial",
    "pool_binomial_normal",
    "pool_comparisons",
    "pool_estimates",
    "pool_means",
    "pool_proportions",
]


def __getattr__(name: str) -> Any:
    if name == "__version__":
        return import_module("importlib.metadata").version("evsyn")
    if name in _HOMES:
        return getattr(import_module(_HOMES[name]), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")


def __dir__() -> list[str]:
    return sorted(__all__)
