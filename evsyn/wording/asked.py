"""Words that every answer to a question about a pool ends with: what was asked, and how often."""

from evsyn.wording.numbers import counted


def asked_sentence(questions: int, tests: int) -> str:
    """Say how many pools were looked at, and how many tests were made.

    Parameters
    ----------
    questions : int
        Pools looked at in this answer.
    tests : int
        Tests with a P in it.
    """
    pools = counted(questions, "pool", "pools")
    if not tests:
        return f"Asked here: {pools}, no test. What stands out was picked after looking."
    made = counted(tests, "test", "tests")
    return (
        f"Asked here: {pools}, {made}. Where nothing differs at all, one test in 20 would still "
        "give a P below 0.05; none is adjusted for the others."
    )
