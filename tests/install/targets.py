"""The computers a folder of wheels is for."""

from dataclasses import dataclass

PYTHONS = ("3.11", "3.12", "3.13")


@dataclass(frozen=True)
class Platform:
    """A kind of computer: its tag for pip, and what it answers to the conditions of a library."""

    label: str
    tag: str
    os_name: str
    sys_platform: str
    system: str
    machine: str

    def environment(self, python: str) -> dict[str, str]:
        """Return the answers to the conditions under which a library needs another (PEP 508)."""
        return {
            "os_name": self.os_name,
            "sys_platform": self.sys_platform,
            "platform_system": self.system,
            "platform_machine": self.machine,
            "python_version": python,
            "python_full_version": f"{python}.0",
            "implementation_name": "cpython",
            "platform_python_implementation": "CPython",
        }


#: The oldest macOS that wheels of these libraries are made for.
PLATFORMS = (
    Platform("Windows", "win_amd64", "nt", "win32", "Windows", "AMD64"),
    Platform("macOS (Apple chip)", "macosx_12_0_arm64", "posix", "darwin", "Darwin", "arm64"),
    Platform("macOS (Intel chip)", "macosx_12_0_x86_64", "posix", "darwin", "Darwin", "x86_64"),
)
