using RepairShop.Domain.Repairs;

namespace RepairShop.Web.Pages.Repairs;

/// <summary>The one next sensible action of a sheet as a button.</summary>
/// <param name="Label">A verb that says what happens.</param>
/// <param name="Path">Behind /repairs/{number}; null when the sheet itself does it.</param>
public sealed record NextAction(string Label, string? Path)
{
    public static NextAction? Of(NextStep step) => step switch
    {
        NextStep.CheckAsReceived => new("Check as received", "checks/as-received"),
        NextStep.WriteEstimate => new("Write estimate", "estimate"),
        NextStep.RecordAnswer => new("Record the answer", "estimate"),
        NextStep.OfferAgain => new("Estimate lapsed: offer again", "estimate"),
        NextStep.TakeToTheBench => new("Take to the bench", null),
        NextStep.AddFinding => new("Add finding", "findings"),
        NextStep.PutTogether => new("Put it back together", "strip-down/reassembly"),
        NextStep.MeasureAfterService => new("Check after service", "checks/after-service"),
        NextStep.IssueServiceRecord => new("Issue service record", "papers"),
        NextStep.CallReady => new("Call it ready", "ready"),
        NextStep.WriteInvoice => new("Write invoice", "invoice"),
        NextStep.RecordPayment => new("Record payment", "invoice"),
        NextStep.GiveBack => new("Give it back", "return"),
        _ => null,
    };
}
