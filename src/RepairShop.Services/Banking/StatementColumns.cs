namespace RepairShop.Services.Banking;

/// <summary>What the columns of a bank's table mean; counted from 0, null where there is none.</summary>
public sealed record StatementColumns
{
    public int? Date { get; init; }

    public int? Valued { get; init; }

    /// <summary>With its sign, or beside <see cref="Direction"/>.</summary>
    public int? Amount { get; init; }

    /// <summary>Money in, where it has a column of its own.</summary>
    public int? MoneyIn { get; init; }

    public int? MoneyOut { get; init; }

    /// <summary>Says credit or debit where the amount has no sign.</summary>
    public int? Direction { get; init; }

    public int? Currency { get; init; }

    public int? Name { get; init; }

    public int? Iban { get; init; }

    public int? Text { get; init; }

    public int? Reference { get; init; }

    public int? BankReference { get; init; }

    public bool DecimalComma { get; init; }

    public bool MonthFirst { get; init; }
}
