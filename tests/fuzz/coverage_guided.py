"""Coverage-guided fuzzing of one reader with atheris; see ``README.md`` here."""

import sys
import tempfile
import warnings
from pathlib import Path

import atheris

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))
with atheris.instrument_imports(
    include=["fishmeasure", "api", "PIL", "tomllib", "json", "csv", "tarfile"]
):
    from tests.fuzz.readers import targets


def main() -> None:
    """Fuzz the reader that is named first, with libFuzzer's options after it."""
    warnings.simplefilter("ignore")
    call, seeds = targets()[sys.argv[1]]
    with tempfile.TemporaryDirectory() as corpus:
        for number, data in enumerate(seeds):
            (Path(corpus) / str(number)).write_bytes(data)
        atheris.Setup([sys.argv[0], *sys.argv[2:], corpus], call)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
