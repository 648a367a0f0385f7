using RepairShop.Domain.Estimates;
using RepairShop.Domain.Invoices;
using RepairShop.Domain.Post;
using RepairShop.Domain.Repairs;

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
        _ => method.ToString().ToLowerInvariant(),
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
