using RepairShop.Domain.Results;

namespace RepairShop.Domain.EInvoices;

/// <summary>A rule of EN 16931-1:2017 by its published name, and what to do where it does not hold.</summary>
/// <param name="Code">Such as BR-CO-15, as in ConnectingEurope/eInvoicing-EN16931, ubl/schematron.</param>
/// <param name="Holds"></param>
/// <param name="Remedy">What is missing and where to fill it in.</param>
public sealed record EInvoiceRule(string Code, Func<EInvoice, bool> Holds, string Remedy);

/// <summary>A rule that does not hold for one invoice.</summary>
public sealed record EInvoiceFault(string Code, string Remedy);

/// <summary>The shop issues nothing without an electronic invoice, and this one can't be written yet.</summary>
public sealed record EInvoiceIncomplete(IReadOnlyList<EInvoiceFault> Faults) : Conflict(
    "The electronic invoice can't be written yet. " + string.Join(" ", Faults.Select(fault => $"{fault.Remedy} ({fault.Code})").Distinct()));
