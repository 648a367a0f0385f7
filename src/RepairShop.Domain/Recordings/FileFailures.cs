using System.Globalization;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Recordings;

/// <summary>A recording's file that can't be read, with the place and the reason. Its type's name, in camel case, is the reason's name in JSON.</summary>
public abstract record FileRefused(string Message) : Invalid("File", Message)
{
    /// <summary>Bytes, lines and samples are counted the same everywhere: 1 234 567 is written plainly.</summary>
    protected static string Plain(long number) => number.ToString(CultureInfo.InvariantCulture);

    protected static string Plain(double number) => number.ToString("0.######", CultureInfo.InvariantCulture);

    protected static string Quoted(string text) => TypedText.Quoted(text);
}

public sealed record FileMissing() : FileRefused("There is no such file: check its name.");

public sealed record FileUnreadable() : FileRefused("The file can’t be opened: check that it is a file and that you may read it.");

public sealed record FileEmpty() : FileRefused("The file is empty: record again, or choose another file.");

/// <param name="Bytes">How large it is.</param>
public sealed record FileTooLarge(long Bytes)
    : FileRefused($"The file has {Plain(Bytes / 1_000_000)} MB; up to 200 MB are read: cut out the part with the exposures.");

public sealed record NotARecording()
    : FileRefused("At byte 0: this is neither a WAV file nor a table of text: save the recording as WAV, or the oscilloscope’s trace as CSV.");

/// <param name="Container">What it is instead.</param>
public sealed record OtherContainer(string Container)
    : FileRefused($"At byte 0: this is {Container}, not a RIFF WAV file: save it as a plain WAV file.");

/// <param name="AtByte">Where the file ends.</param>
/// <param name="Part">What should have been there.</param>
public sealed record HeaderTruncated(long AtByte, string Part)
    : FileRefused($"At byte {Plain(AtByte)}: the file ends inside {Part}: it was cut off, copy it again.");

/// <param name="AtByte">Where the length stands.</param>
/// <param name="Part">Whose length.</param>
/// <param name="Claimed">What it says, in bytes.</param>
/// <param name="There">What is there, in bytes.</param>
public sealed record LengthWrong(long AtByte, string Part, long Claimed, long There)
    : FileRefused($"At byte {Plain(AtByte)}: {Part} says it has {Plain(Claimed)} bytes, but there are {Plain(There)}: the file was cut off or never finished, copy or save it again.");

/// <param name="Part">“fmt ” or “data”.</param>
public sealed record PartMissing(string Part)
    : FileRefused($"The WAV file has no {Quoted(Part)} part: save it again from the program that recorded it.");

/// <param name="AtByte">Where the second one begins.</param>
/// <param name="Part">“fmt ” or “data”.</param>
public sealed record PartTwice(long AtByte, string Part)
    : FileRefused($"At byte {Plain(AtByte)}: the WAV file has a second {Quoted(Part)} part: save it again from the program that recorded it.");

/// <param name="AtByte">Where the number stands.</param>
public sealed record NoChannels(long AtByte)
    : FileRefused($"At byte {Plain(AtByte)}: the file says it has no channels: record again with one or more.");

/// <param name="AtByte">Where the number stands.</param>
/// <param name="Channels">How many it says.</param>
public sealed record TooManyChannels(long AtByte, int Channels)
    : FileRefused($"At byte {Plain(AtByte)}: the file says it has {Plain(Channels)} channels; up to 8 are read.");

/// <param name="AtByte">Where it stands.</param>
/// <param name="What">The encoding in words.</param>
public sealed record EncodingNotRead(long AtByte, string What)
    : FileRefused($"At byte {Plain(AtByte)}: samples as {What} are not read: save the file as 16, 24 or 32-bit PCM or as float.");

/// <param name="AtByte">Where the format stands.</param>
/// <param name="What">Which two numbers don’t fit each other.</param>
public sealed record FormatContradicts(long AtByte, string What)
    : FileRefused($"At byte {Plain(AtByte)}: the header contradicts itself ({What}): save the file again from the program that recorded it.");

/// <param name="Place">Where it stands or shows.</param>
/// <param name="Hertz">What it says.</param>
/// <param name="Least">The lowest rate read.</param>
/// <param name="Most">The highest.</param>
public sealed record RateOutOfRange(string Place, double Hertz, double Least, double Most)
    : FileRefused($"{Place}: {Plain(Hertz)} samples a second can’t be read; use {Plain(Least)} to {Plain(Most)}.");

/// <param name="Seconds">How long it is.</param>
public sealed record TooLong(double Seconds)
    : FileRefused($"The recording lasts {Plain(Math.Round(Seconds))} s; up to 600 s are read: cut out the part with the exposures.");

/// <param name="Place">Channel and sample, or line and column.</param>
public sealed record NotFinite(string Place)
    : FileRefused($"{Place} is not a number (NaN, infinite or overflow): record again with the input set lower.");

/// <param name="Line">Counted from 1.</param>
/// <param name="Column">Counted from 1.</param>
/// <param name="Text">What stands there.</param>
public sealed record TextNotNumber(long Line, int Column, string Text)
    : FileRefused($"Line {Plain(Line)}, column {Plain(Column)}: {Quoted(Text)} is not a number: only the lines on top may hold text.");

/// <param name="Line">Counted from 1.</param>
/// <param name="There">Columns in it.</param>
/// <param name="Before">Columns in the lines before.</param>
public sealed record ColumnsDiffer(long Line, int There, int Before)
    : FileRefused($"Line {Plain(Line)} has {Plain(There)} columns where the lines before have {Plain(Before)}: export the trace again.");

/// <param name="Line">The first line of numbers, counted from 1.</param>
public sealed record NoValueColumn(long Line)
    : FileRefused($"Line {Plain(Line)} has one column: a trace needs the time and at least one value, parted by comma, semicolon or tab.");

/// <param name="Line">The first line of numbers, counted from 1.</param>
/// <param name="Columns">How many.</param>
public sealed record TooManyColumns(long Line, int Columns)
    : FileRefused($"Line {Plain(Line)} has {Plain(Columns)} columns; the time and up to 8 values are read.");

public sealed record NoNumbers() : FileRefused("No line of the first hundred holds a time and a value: export the trace as CSV with time and voltage.");

/// <param name="Rows">How many there are.</param>
public sealed record TooFewRows(long Rows)
    : FileRefused($"The table has {Plain(Rows)} lines of numbers; at least 3 are needed to know how far apart they are.");

/// <param name="Most">How many are read.</param>
public sealed record TooManyRows(long Most)
    : FileRefused($"Line {Plain(Most)} and the table goes on: up to {Plain(Most)} lines are read, export the part with the exposures.");

/// <param name="Line">Counted from 1.</param>
public sealed record LineTooLong(long Line)
    : FileRefused($"Line {Plain(Line)} is longer than 20000 letters: this is not an oscilloscope’s table.");

/// <param name="Line">Counted from 1.</param>
public sealed record TimeGoesBack(long Line)
    : FileRefused($"Line {Plain(Line)}: the time is earlier than in the line before; export the trace again with its lines in order.");

/// <param name="Line">Counted from 1.</param>
public sealed record TimeStandsStill(long Line)
    : FileRefused($"Line {Plain(Line)}: the time stands still; export it with more digits, or with a decimal point where the comma parts the columns.");

/// <param name="Line">Counted from 1.</param>
/// <param name="GapSeconds">How long.</param>
/// <param name="StepSeconds">The usual step.</param>
public sealed record TimeHasGap(long Line, double GapSeconds, double StepSeconds)
    : FileRefused($"Line {Plain(Line)}: {GapSeconds.ToString("G3", CultureInfo.InvariantCulture)} s are missing before it where the step is {StepSeconds.ToString("G3", CultureInfo.InvariantCulture)} s; export the trace without gaps.");

/// <param name="Reason">What stands in the way of decoding a header that looked well.</param>
public sealed record DecoderRefused(string Reason)
    : FileRefused($"The samples can’t be decoded: {Reason}");
