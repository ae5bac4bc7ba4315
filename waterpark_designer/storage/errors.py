"""What can go wrong with a project file, in plain words."""

import errno


class ProjectFileError(Exception):
    """A project cannot be opened, saved or kept; the message says why and what to do."""


class ProjectTooNew(ProjectFileError):
    """The file was saved by a newer program than this one."""


class ChangedOnDisk(ProjectFileError):
    """The file is no longer the one that was read or written last; nothing was saved."""


class GoneFromDisk(ChangedOnDisk):
    """The file was moved or deleted since it was read or written last; nothing was saved."""


NO_ROOM = {errno.ENOSPC, errno.EDQUOT}
NOT_ALLOWED = {errno.EACCES, errno.EPERM, errno.EROFS}


def reading_trouble(error: OSError) -> str:
    """Why a file cannot be read, as a sentence."""
    if error.errno in (errno.ENOENT, errno.ENOTDIR):
        return "It does not exist. It may have been moved or deleted."
    if error.errno in NOT_ALLOWED:
        return "You have no permission to read it. Ask its owner, or copy it to a folder of your own."
    if error.errno == errno.EISDIR:
        return "It is a folder. Choose a project file in it."
    return f"It cannot be read: {error.strerror or error}."


def writing_trouble(error: OSError) -> str:
    """Why a file cannot be written, as sentences."""
    if error.errno in NO_ROOM:
        return "There is no room left on the disk. Free some, or save in another place."
    if error.errno in NOT_ALLOWED:
        return "You have no permission to write there. Save it in another folder."
    if error.errno in (errno.ENOENT, errno.ENOTDIR):
        return "The folder does not exist. It may have been moved or deleted. Save it in another folder."
    if error.errno == errno.EISDIR:
        return "There is a folder of that name. Choose another name."
    if error.errno == errno.ENAMETOOLONG:
        return "The name is too long. Choose a shorter one."
    return f"The disk refused it: {error.strerror or error}."
