using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Post;
using RepairShop.Domain.Repairs;
using RepairShop.Services.Invoices;

namespace RepairShop.Web.Pages.Money;

/// <summary>States and ways as people say them.</summary>
public static class Words
{
    public static string Of(EstimateState state) => state switch
    {
        EstimateState.Draft => "draft",
        EstimateState.Sent => "sent, waiting for an answer",
        EstimateState.Approved => "approved",
        EstimateState.Declined => "declined",
        _ => "lapsed",
    };

    public static string Of(AnswerWay way) => way switch
    {
        AnswerWay.InPerson => "in person",
        AnswerWay.Phone => "by phone",
        AnswerWay.Email => "by e-mail",
        AnswerWay.Letter => "by letter",
        _ => "with the link",
    };

    public static string Of(PaymentMethod method) => method switch
    {
        PaymentMethod.BankTransfer => "bank transfer",
        PaymentMethod.CustomerCredit => "customer’s credit",
        _ => method.ToString().ToLowerInvariant(),
    };

    /// <summary>One line of a customer's money.</summary>
    public static string Of(MoneyEntry entry) => (entry.IsTakeBack ? "Taken back: " : "") + entry switch
    {
        { Kind: MoneyEntryKind.WriteOff } => "Written off",
        { Credit: CreditKind.Fee } => "Fee, out of credit",
        { Credit: CreditKind.PaidBack } => $"Credit given back by {Of(entry.Method)}",
        { Method: PaymentMethod.CustomerCredit } => entry.Amount > 0 != entry.IsTakeBack ? "Paid with credit" : "Kept as credit",
        _ => entry.Amount > 0 != entry.IsTakeBack ? $"Received by {Of(entry.Method)}" : $"Given back by {Of(entry.Method)}",
    };

    public static string Of(MailState state) => state switch
    {
        MailState.Waiting => "waiting",
        MailState.HandingOver => "being handed over",
        MailState.Sent => "sent",
        MailState.InDoubt => "in doubt",
        _ => "given up",
    };

    public static string Of(MailKind kind) => kind switch
    {
        MailKind.BookedIn => "Booked in",
        MailKind.ServiceRecord => "Service record",
        MailKind.CreditNote => "Credit note",
        _ => kind.ToString(),
    };
}
