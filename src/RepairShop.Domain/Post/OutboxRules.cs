using RepairShop.Domain.Results;

namespace RepairShop.Domain.Post;

/// <summary>When a letter is tried again, given up, or repeated by hand.</summary>
public static class OutboxRules
{
    public const int MostAttempts = 8;

    /// <summary>Twice as long each time: 1, 2, 4 … minutes, never more than four hours.</summary>
    /// <param name="attempts">How often it has been tried, 1 or more.</param>
    public static TimeSpan WaitAfter(int attempts)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(attempts, 1);
        return TimeSpan.FromMinutes(Math.Min(240, Math.Pow(2, Math.Min(attempts - 1, 10))));
    }

    public static Result MayRepeat(OutboxMail mail, bool repeatedAlready)
    {
        if (mail.State is MailState.Waiting or MailState.HandingOver)
            return new MailStillUnderWay();
        return repeatedAlready ? new MailRepeatedAlready() : Result.Done;
    }

    /// <summary>Text for one line of a letter's head: no control characters, so nothing can begin another line.</summary>
    public static string OneLine(string text) =>
        string.Concat(text.Select(sign => char.IsControl(sign) || sign is '\u2028' or '\u2029' ? ' ' : sign)).Trim();
}
