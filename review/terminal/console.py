"""The console of Windows as a screen: it obeys control sequences only once it is told to."""

import sys
from contextlib import suppress

VT = 0x0004  # ENABLE_VIRTUAL_TERMINAL_PROCESSING (learn.microsoft.com/windows/console/setconsolemode)

if sys.platform == "win32":
    import ctypes
    import msvcrt

    def obey(screen: int) -> int | None:
        """Let it obey; the mode it had before. None: it cannot, as before Windows 10."""
        kernel, handle, mode = ctypes.WinDLL("kernel32"), handle_of(screen), ctypes.c_uint32()
        if not kernel.GetConsoleMode(handle, ctypes.byref(mode)):
            return None
        return mode.value if kernel.SetConsoleMode(handle, mode.value | VT) else None

    def put_back(screen: int, mode: int | None) -> None:
        """The mode it had; where the window has gone there is nothing to put back."""
        with suppress(OSError):
            if mode is not None:
                ctypes.WinDLL("kernel32").SetConsoleMode(handle_of(screen), mode)

    def handle_of(screen: int) -> ctypes.c_void_p:
        return ctypes.c_void_p(msvcrt.get_osfhandle(screen))

else:

    def obey(screen: int) -> int | None:
        """Terminals of other systems obey as they are."""
        return 0

    def put_back(screen: int, mode: int | None) -> None:
        pass


def obeys(screen: int) -> bool:
    """Whether text can be placed there; the console is left as it was."""
    mode = obey(screen)
    put_back(screen, mode)
    return mode is not None
