using System.Globalization;
using RepairShop.Domain.Results;
using RepairShop.Domain.Shop;

namespace RepairShop.Domain.Banking;

/// <summary>A bank's file that can't be read, with the place and the reason.</summary>
public abstract record StatementRefused(string Message) : Invalid("File", Message)
{
    /// <summary>Lines are counted the same everywhere: 1 234 567 is written plainly.</summary>
    protected static string Plain(long number) => number.ToString(CultureInfo.InvariantCulture);

    protected static string Quoted(string text) => TypedText.Quoted(text);
}

public sealed record NoStatementChosen() : StatementRefused("No file was chosen: choose the statement your bank gave you as CAMT.053 or CSV.");

public sealed record StatementEmpty() : StatementRefused("The file is empty: download the statement again.");

public sealed record StatementTooLarge(long Bytes)
    : StatementRefused($"The file has {Plain(Bytes / 1_000_000)} MB; up to 10 MB are read: ask the bank for fewer days at once.");

/// <param name="What">What the file is instead.</param>
/// <param name="Remedy">What to do.</param>
public sealed record OtherFile(string What, string Remedy) : StatementRefused($"This is {What}, not a statement that can be read: {Remedy}");

/// <param name="Line">Counted from 1.</param>
/// <param name="Column">Counted from 1.</param>
public sealed record XmlBroken(int Line, int Column)
    : StatementRefused($"Line {Plain(Line)}, sign {Plain(Column)}: the XML is broken or was cut off there: download the statement again.");

public sealed record XmlDeclaresEntities()
    : StatementRefused("On top, before its first element, the file declares a document type of its own, which no bank’s statement does: download the statement again.");

/// <param name="Line">Where it goes too deep.</param>
public sealed record XmlTooDeep(int Line) : StatementRefused($"Line {Plain(Line)}: the elements are nested deeper than in any statement: this is not a CAMT file.");

/// <param name="Line">Where it goes on and on.</param>
public sealed record XmlTooFull(int Line) : StatementRefused($"Line {Plain(Line)}: one entry holds more elements than are read: ask the bank for fewer days at once.");

/// <param name="Namespace">What stands there.</param>
/// <param name="Remedy">What to ask for.</param>
public sealed record OtherXml(string Namespace, string Remedy) : StatementRefused($"This XML is {Quoted(Namespace)}, not a statement of account: {Remedy}");

public sealed record NoStatementInside() : StatementRefused("The file holds no statement (Stmt): download it again as CAMT.053.");

/// <param name="Place">“Entry 3”, “Line 17”.</param>
/// <param name="Part">What is missing.</param>
public sealed record PartMissing(string Place, string Part) : StatementRefused($"{Place}: {Part} is missing: download the statement again, or ask the bank.");

/// <param name="Place">“Entry 3”, “Line 17”.</param>
/// <param name="Text">What stands there.</param>
public sealed record AmountUnreadable(string Place, string Text)
    : StatementRefused($"{Place}: {Quoted(Text)} is no amount: digits with at most four after the sign for decimals are read.");

/// <param name="Place">“Entry 3”.</param>
/// <param name="Text">What stands there.</param>
public sealed record CurrencyUnreadable(string Place, string Text)
    : StatementRefused($"{Place}: {Quoted(Text)} is no currency: three capitals such as EUR are read.");

/// <param name="Place">“Entry 3”, “Line 17”.</param>
/// <param name="Text">What stands there.</param>
public sealed record DateUnreadable(string Place, string Text)
    : StatementRefused($"{Place}: {Quoted(Text)} is no day between 1970 and 2199 as the file writes its dates.");

/// <param name="Place">“Entry 3”, “Line 17”.</param>
/// <param name="Text">What stands there.</param>
public sealed record DirectionUnreadable(string Place, string Text)
    : StatementRefused($"{Place}: {Quoted(Text)} does not say whether money came in or went out.");

/// <param name="Most">How many are read.</param>
public sealed record TooManyEntries(int Most)
    : StatementRefused($"Entry {Plain(Most)} and the file goes on: up to {Plain(Most)} movements are read, ask the bank for fewer days at once.");

/// <param name="Line">Counted from 1.</param>
/// <param name="There">Columns in it.</param>
/// <param name="Before">Columns in the head.</param>
public sealed record RowDiffers(long Line, int There, int Before)
    : StatementRefused($"Line {Plain(Line)} has {Plain(There)} columns where the head has {Plain(Before)}: take the line out, or download the table again.");

/// <param name="Line">Where it opens.</param>
public sealed record QuoteUnclosed(long Line)
    : StatementRefused($"Line {Plain(Line)}: a quotation mark is opened there and not closed again: download the table again.");

/// <param name="Line">Counted from 1.</param>
public sealed record RowTooLong(long Line) : StatementRefused($"Line {Plain(Line)} is longer than 20000 signs: this is no bank’s table.");

public sealed record NoTable()
    : StatementRefused("No line of the first sixty begins a table: a head and lines with a day and an amount, parted by semicolon, comma or tab, are needed.");

/// <param name="Line">Counted from 1.</param>
/// <param name="Columns">How many.</param>
public sealed record TooManyStatementColumns(long Line, int Columns) : StatementRefused($"Line {Plain(Line)} has {Plain(Columns)} columns; up to 60 are read: this is no bank’s table.");

/// <param name="Field">Of the form.</param>
public sealed record ColumnMissing(string Field, string What) : Invalid(Field, $"{What} has no column: choose which one it is.");

/// <param name="Field">Of the form.</param>
public sealed record ColumnNotThere(string Field) : Invalid(Field, "The table has no such column: choose one of those shown.");

public sealed record StatementFileGone() : Conflict("The file is no longer there: choose it again.");

public sealed record StatementNotFound() : NotFound("This statement is not there.");

public sealed record BankLineNotFound() : NotFound("This line of a statement is not there.");

/// <summary>Whoever clicked first has booked it.</summary>
public sealed record BankLineBooked() : Conflict("This line is booked already: it was booked here or by somebody else meanwhile.");

public sealed record BankLineSetAside() : Conflict("This line is set aside: take it up again first, then book it.");

/// <param name="Bar">Why.</param>
public sealed record BankLineBarred(BankLineBar Bar) : Conflict(Bar switch
{
    BankLineBar.MoneyOut => "Money went out with this line: only money that came in is booked from a statement.",
    BankLineBar.Reversal => "This line takes an earlier one back: look for that one, and undo its booking.",
    BankLineBar.NotBookedYet => "The bank has not booked this line yet: it comes again in a later statement.",
    BankLineBar.OtherCurrency => "This line is in another currency than the book: record it by hand.",
    _ => "This line moves nothing: there is nothing to book.",
});

/// <summary>The database's own refusal: amount, currency and day of a receipt are those of its line.</summary>
public sealed record ReceiptNotAsLine() : Conflict("Amount, currency and day are those of the bank’s line: book it as it stands.");

/// <summary>The bank's day can't be moved, so the money is recorded by hand.</summary>
public sealed record BankLineInClosedMonth(DateOnly Day) : Conflict("The bank’s day lies in a month that is closed: set the line aside, and record the money by hand on a later day.");

public sealed record NothingTicked() : Conflict("No line is ticked: tick those that are to be booked.");

public sealed record SetAsideReasonMissing() : Invalid("Reason", "The reason is empty: say in a few words why the line is not booked, you will ask yourself later.");

/// <summary>Somebody else set it aside or took it up in between.</summary>
public sealed record BankLineMoved() : Conflict("Somebody else set this line aside or took it up again meanwhile: look at it again.");
