using RepairShop.Domain.Results;

namespace RepairShop.Domain.Recordings;

public sealed record RecordingNotFound() : NotFound("This recording is not there.");

/// <param name="Named">How many channels were named.</param>
/// <param name="There">How many the recording has.</param>
public sealed record ChannelsMissing(int Named, int There)
    : Invalid("Channels", $"{Named} channels are named, but the recording has {There}: name only those that are there.");

public sealed record NoLightChannel() : Invalid("Channels", "No channel of this recording is named as light: say which one the light sensor is on.");

public sealed record ChannelNamedTwice() : Invalid("Channels", "Two channels are named alike: each can be named once.");

public sealed record ReferenceOutOfRange() : Invalid("Reference", "Reference: exposures are counted from 1.");

/// <param name="Name">The reason's name, as the command line has it.</param>
/// <param name="Sentence">What to do about it.</param>
public sealed record NoFigures(string Name, string Sentence) : Invalid("File", Sentence);

public sealed record NoFileChosen() : Invalid("File", "No file was chosen: choose a WAV file or an oscilloscope’s CSV.");

public sealed record NoRoomForRecording() : Invalid("File", "The disk took no more: make room in the data folder and send the file again.");

/// <param name="Text">What was typed.</param>
/// <param name="Why">What is wrong with it.</param>
public sealed record MarksNotRead(string Text, string Why) : Invalid("Marks", Why);

/// <param name="Marks">How many were typed.</param>
/// <param name="Exposures">How many the recording has.</param>
public sealed record MarksDontFit(int Marks, int Exposures)
    : Invalid("Marks", $"{Marks} marked speeds are written, but the recording has {Exposures} exposures: write one for all, or one for each.");

/// <param name="Mark">As it was sent.</param>
public sealed record MarkNotTimed(string Mark)
    : Conflict($"“{Mark}” is no timed mark of this dial: choose one of the marked speeds.");

public sealed record FrameWidthOutOfRange(double Millimetres)
    : Invalid("FrameWidth", $"A frame {Millimetres} mm wide can’t be: write a number from 5 to 300.");

public sealed record RecordingFileDamaged() : Conflict("The recording’s file is missing or damaged in the data folder: restore it from a backup.");
