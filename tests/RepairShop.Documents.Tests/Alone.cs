namespace RepairShop.Documents.Tests;

/// <summary>For tests that measure or change the whole process: nothing runs beside them.</summary>
[CollectionDefinition(nameof(Alone), DisableParallelization = true)]
public sealed class Alone;
